import { fileURLToPath } from 'node:url'
import { defineConfig } from 'vitest/config'
import { leftOut } from './left-out.ts'

const root = fileURLToPath(new URL('..', import.meta.url))

export default defineConfig({
  test: {
    root,
    include: ['tests/**/*.test.ts'],
    // graphql would load twice (ESM and CommonJS) and refuse to start: one copy for everyone.
    alias: [{ find: /^graphql$/, replacement: 'graphql/index.js' }],
    server: { deps: { inline: ['@pothos/core'] } },
    setupFiles: ['tests/setup.ts'],
    // A guard against what never ends, not a measure of speed.
    testTimeout: 90_000,
    hookTimeout: 90_000,
    reporters: ['default', leftOut(root)],
  },
})
