/** Control characters save line end and tab, and marks that are not seen or turn the reading direction. */
const UNSEEN = /[^\P{Cc}\n\t]|[\p{Bidi_Control}\u200b\u2028\u2029\ufeff]/gu

/**
 * Text from sheets may hold characters that move the cursor, rename the window or turn the reading direction.
 * They are shown as `\u{…}`, so that what a person sees is what was written.
 */
export function plainText(text: string): string {
  return text.replace(/\r\n/g, '\n').replace(UNSEEN, shown)
}

/** The same in one line: for table cells, titles and logs. */
export function plainLine(text: string): string {
  return plainText(text).replace(/[\n\t]+/g, ' ')
}

function shown(character: string): string {
  return `\\u{${character.codePointAt(0)!.toString(16)}}`
}
