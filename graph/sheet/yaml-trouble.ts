import type { YAMLException } from 'js-yaml'
import type { TextTrouble } from './gate.ts'

/** What the parser could not read, in our words and with the mend. */
export function inOurWords(trouble: YAMLException, text: string): TextTrouble {
  const { reason } = trouble
  const mark = trouble.mark as { line: number; column: number } | undefined
  if (mark === undefined) return { line: secondDocument(text), column: 1, ...several(reason) }
  const line = text.split('\n', mark.line + 1)[mark.line] ?? ''
  return { line: mark.line + 1, column: mark.column + 1, ...messageFor(reason, line.slice(mark.column)) }
}

interface Message {
  readonly what: string
  readonly mend: string
}

function messageFor(reason: string, line: string): Message {
  if (reason.includes('duplicated mapping key')) {
    const key = /^\s*["']?([^\s:{,"']+)/.exec(line)?.[1]
    return {
      what: `a key stands twice in one mapping${key ? `, "${key}"` : ''}`,
      mend: 'keep one; several claims of one property go into a list',
    }
  }
  if (reason.includes('indentation'))
    return {
      what: 'this line does not fit the lines around it',
      mend: 'let keys of one mapping start in the same column; quote a value that holds ": "',
    }
  if (reason.includes('missed comma'))
    return {
      what: 'a comma is missing between two entries, or a value holds a sign that needs quotes',
      mend: 'put a comma between entries; quote values with : # [ ] { } or ,',
    }
  if (reason.includes('multiline key') || reason.includes('implicit'))
    return {
      what: 'a line without a key where one is expected',
      mend: 'write key: value; indent what continues the line before',
    }
  if (reason.includes('separator is expected'))
    return {
      what: 'this line does not belong to the mapping above',
      mend: 'indent it like its neighbours, with blanks',
    }
  if (reason.includes('end of the stream'))
    return { what: 'the sheet ends in the middle of something', mend: 'close every quote and bracket' }
  if (reason.includes('escape'))
    return { what: 'a backslash in double quotes means something here', mend: "use single quotes: 'AB\\12'" }
  return {
    what: `the notation cannot be read here (${reason})`,
    mend: 'quote the value, or compare with a sheet that works',
  }
}

function several(reason: string): Message {
  if (reason.includes('single document'))
    return { what: 'two sheets in one file, parted by "---"', mend: 'one file for each specimen' }
  return messageFor(reason, '')
}

function secondDocument(text: string): number {
  const second = [...text.matchAll(/^---/gm)].at(-1)
  return second ? text.slice(0, second.index).split('\n').length : 1
}
