/** Sections that a subject may be named without: ids are unique in a sheet. Loops bear the ids of parts and are spelt out. */
const LEFT_OUT = ['', 'parts/', 'coolant/', 'heat/'] as const

/** Whether a subject is one of those named: itself, or one of the pieces of a repeated entry (`high` → `parts/high.a`). */
export function isNamed(subject: string, typed: readonly string[]): boolean {
  const segments = subject.split('/')
  return typed.some((text) => LEFT_OUT.some((section) => covers(`${section}${text}`.split('/'), segments)))
}

function covers(named: readonly string[], segments: readonly string[]): boolean {
  return (
    named.length === segments.length &&
    named.every((segment, at) => segments[at] === segment || segments[at]!.split('.')[0] === segment)
  )
}
