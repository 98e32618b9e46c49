import { writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { printedSchema } from '../api/graphql/schema.ts'
import { projectFolder } from '../api/place.ts'

// `npm run schema`: prints the contract where it is reviewed as a difference.
writeFileSync(join(projectFolder(), 'api', 'graphql', 'schema.graphql'), printedSchema())
