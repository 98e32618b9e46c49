import { readFileSync } from 'node:fs'
import { adapters } from './adapters/registry.ts'
import type { Case } from './case.ts'
import { grade } from './grade.ts'

/** Runs every case of the files named: a line a case, and a last line with the counts. Exit 1 when one failed. */
function main(files: readonly string[]): number {
  if (files.length === 0) {
    process.stderr.write('usage: npm run reference -- FILE…\n  e.g. npm run reference -- cases/electrical.json\n')
    return 2
  }
  const cases = files.flatMap((file) => readCases(file))
  const grades = cases.map((one) => grade(one, answer(one)))
  for (const { id, outcome, detail } of grades) process.stdout.write(`${outcome.padEnd(10)}  ${id}  ${detail}\n`)
  const count = (outcome: string): number => grades.filter((one) => one.outcome === outcome).length
  process.stdout.write(`${count('passed')} passed, ${count('failed')} failed, ${count('not mapped')} not mapped\n`)
  return count('failed') > 0 ? 1 : 0
}

/** Cases of a file; one that is not a list of cases (a table of coefficients) holds none. */
export function readCases(file: string): readonly Case[] {
  const content: unknown = JSON.parse(readFileSync(file, 'utf8'))
  return Array.isArray(content) ? (content as readonly Case[]).filter((one) => 'expected' in one && 'topic' in one) : []
}

/** The first adapter that takes the topic and can answer. A fault of the product is a failed case, not a crash. */
export function answer(input: Case) {
  for (const adapter of adapters) {
    if (!adapter.topics.some((topic) => input.topic === topic || input.topic.startsWith(`${topic}/`))) continue
    try {
      const answers = adapter.answer(input)
      if (answers) return answers
    } catch (error) {
      return { message: error instanceof Error ? error.message : String(error), error: true }
    }
  }
  return undefined
}

if (process.argv[1]?.endsWith('main.js')) process.exitCode = main(process.argv.slice(2))
