/** The first way round that leads back to where it started, or undefined. Not recursive: a hostile sheet may be long. */
export function cycleIn(next: ReadonlyMap<string, readonly string[]>): readonly string[] | undefined {
  const done = new Set<string>()
  for (const start of next.keys()) {
    const way: string[] = []
    const open = new Set<string>()
    const stack: { readonly node: string; readonly left: string[] }[] = []
    const go = (node: string): void => {
      way.push(node)
      open.add(node)
      stack.push({ node, left: [...(next.get(node) ?? [])] })
    }
    if (!done.has(start)) go(start)
    while (stack.length > 0) {
      const top = stack[stack.length - 1] as { readonly node: string; readonly left: string[] }
      const after = top.left.pop()
      if (after === undefined) {
        stack.pop()
        way.pop()
        open.delete(top.node)
        done.add(top.node)
      } else if (open.has(after)) return [...way.slice(way.indexOf(after)), after]
      else if (!done.has(after)) go(after)
    }
  }
  return undefined
}
