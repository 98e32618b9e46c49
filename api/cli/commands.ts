import type { Command } from './command.ts'

/** Every command, in the order in which a person meets them. */
export const commands: readonly Command[] = []
