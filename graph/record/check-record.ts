import type { Book } from './book.ts'
import type { TeardownRecord } from './record.ts'

export function checkRecord(_record: TeardownRecord, _book: Book): void {}
