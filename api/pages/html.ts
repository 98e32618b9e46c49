/** A piece of page whose text has been made safe. */
export interface Html {
  readonly html: string
}

type Part = Html | string | number | readonly Part[]

/** Builds page text: whatever is put into it is text, never markup. */
export function html(strings: TemplateStringsArray, ...parts: readonly Part[]): Html {
  return { html: strings.reduce((text, string, at) => text + safe(parts[at - 1] ?? '') + string) }
}

function safe(part: Part): string {
  if (typeof part === 'string') return escaped(part)
  if (typeof part === 'number') return String(part)
  return 'html' in part ? part.html : part.map(safe).join('')
}

const ENTITIES: Readonly<Record<string, string>> = {
  '&': '&amp;',
  '<': '&lt;',
  '>': '&gt;',
  '"': '&quot;',
  "'": '&#39;',
}

function escaped(text: string): string {
  return text.replace(/[&<>"']/g, (character) => ENTITIES[character]!)
}
