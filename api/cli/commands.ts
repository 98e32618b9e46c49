import type { Command } from './command.ts'
import { add } from './commands/add.ts'
import { backup } from './commands/backup.ts'
import { calc } from './commands/calc.ts'
import { check } from './commands/check.ts'
import { checklist } from './commands/checklist.ts'
import { classes } from './commands/classes.ts'
import { compare } from './commands/compare.ts'
import { demo } from './commands/demo.ts'
import { exportTable } from './commands/export.ts'
import { figures } from './commands/figures.ts'
import { findings } from './commands/findings.ts'
import { history } from './commands/history.ts'
import { ledger } from './commands/ledger.ts'
import { list } from './commands/list.ts'
import { measureNext } from './commands/measure-next.ts'
import { query } from './commands/query.ts'
import { scenarios } from './commands/scenarios.ts'
import { serve } from './commands/serve.ts'
import { show } from './commands/show.ts'
import { sweep } from './commands/sweep.ts'
import { token } from './commands/token.ts'
import { trace } from './commands/trace.ts'
import { verify } from './commands/verify.ts'
import { version } from './commands/version.ts'
import { whatIf } from './commands/what-if.ts'

/** Every command, in the order in which a person meets them. */
export const commands: readonly Command[] = [
  demo,
  classes,
  check,
  add,
  list,
  show,
  figures,
  trace,
  ledger,
  findings,
  whatIf,
  scenarios,
  sweep,
  measureNext,
  checklist,
  history,
  compare,
  calc,
  query,
  serve,
  exportTable,
  backup,
  verify,
  token,
  version,
]
