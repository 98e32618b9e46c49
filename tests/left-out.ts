import { relative } from 'node:path'
import type { Reporter, TestModule } from 'vitest/node'

/** Outside comparisons that need a program from elsewhere: where their tests stand, and how to get it. */
const NEEDS = [
  {
    what: 'circuit simulator',
    tests: 'tests/outside/spice/',
    get: 'ngspice on the path (Debian: apt-get install ngspice)',
  },
  {
    what: 'pages in a browser',
    tests: 'tests/outside/page.test.ts',
    get: '/usr/bin/chromium (Debian: apt-get install chromium)',
  },
] as const

/** Prints, after everything else, which outside comparisons were skipped for want of a program. They still pass. */
export const leftOut = (root: string): Reporter => ({
  onTestRunEnd(modules) {
    const skipped = modules.filter(isSkipped).map((module) => ({ module, file: relative(root, module.moduleId) }))
    const lines = NEEDS.flatMap(({ what, tests, get }) => {
      const names = skipped.filter(({ file }) => file.startsWith(tests)).map(({ module }) => titleOf(module))
      return names.length === 0 ? [] : [`  ${what}: ${names.join('; ')}`, `    to get them: ${get}`]
    })
    if (lines.length > 0)
      process.stdout.write(`Left out, their programs are not on this machine:\n${lines.join('\n')}\n`)
  },
})

function isSkipped(module: TestModule): boolean {
  const states = [...module.children.allTests()].map((test) => test.result().state)
  return states.length > 0 && states.every((state) => state === 'skipped')
}

const titleOf = (module: TestModule): string => [...module.children.suites()].map(({ name }) => name).join(', ')
