import { writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { printedSchema } from '../api/graphql/schema.ts'
import { projectFolder } from '../api/place.ts'
import { sheetJsonSchema } from '../graph/sheet/json-schema.ts'

// `npm run schema`: prints both contracts where they are reviewed as a difference: the GraphQL schema, and the JSON
// Schema with which an editor completes sheets.
const api = join(projectFolder(), 'api')
writeFileSync(join(api, 'graphql', 'schema.graphql'), printedSchema())
writeFileSync(join(api, 'docs', 'sheet.schema.json'), `${JSON.stringify(sheetJsonSchema(), null, 1)}\n`)
