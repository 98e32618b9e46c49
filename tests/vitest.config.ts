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
    testTimeout: 20_000,
    reporters: ['default', leftOut(root)],
  },
})
