/** One step of the tables. Forward only; never edited once released. */
export interface Migration {
  readonly version: number
  readonly about: string
  readonly sql: string
}
