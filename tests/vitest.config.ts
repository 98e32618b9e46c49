import { defineConfig } from 'vitest/config'

export default defineConfig({
  test: {
    root: new URL('..', import.meta.url).pathname,
    include: ['tests/**/*.test.ts'],
    // graphql would load twice (ESM and CommonJS) and refuse to start: one copy for everyone.
    alias: [{ find: /^graphql$/, replacement: 'graphql/index.js' }],
    server: { deps: { inline: ['@pothos/core'] } },
    testTimeout: 20_000,
  },
})
