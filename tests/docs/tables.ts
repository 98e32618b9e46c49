/** Tables by name: what stands between `<!-- table NAME -->` and `<!-- end -->` in a page. */
export type Tables = Readonly<Record<string, string>>

/** The page with every marked table replaced by what was computed; a mark nobody computes is an error. */
export function withTables(page: string, tables: Tables): string {
  const seen = new Set<string>()
  const replaced = page.replace(/<!-- table (\S+) -->\n[\s\S]*?<!-- end -->/g, (_, name: string) => {
    const table = tables[name]
    if (table === undefined) throw new Error(`no table ${name} is computed`)
    seen.add(name)
    return `<!-- table ${name} -->\n${table}\n<!-- end -->`
  })
  const missing = Object.keys(tables).filter((name) => !seen.has(name))
  if (missing.length > 0) throw new Error(`the page shows no ${missing.join(', ')}`)
  return replaced
}

export function markdownTable(head: readonly string[], rows: readonly (readonly string[])[]): string {
  const line = (cells: readonly string[]): string => `| ${cells.join(' | ')} |`
  return [line(head), line(head.map(() => '---')), ...rows.map(line)].join('\n')
}
