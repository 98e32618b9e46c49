export const GRAPHQL_RESPONSE = 'application/graphql-response+json'

/**
 * Whether a reader wants the media type of GraphQL answers at least as much as plain JSON: then the status tells
 * of a refusal. Without Accept, and for a bare wildcard, plain JSON it is (GraphQL over HTTP, working draft).
 */
export function wantsGraphqlResponse(accept: string | undefined): boolean {
  if (!accept) return false
  const wanted = parseAccept(accept)
  const quality = (type: string): number => wanted.get(type) ?? 0
  const own = quality(GRAPHQL_RESPONSE)
  return own > 0 && own >= quality('application/json')
}

/** Media types with their quality, 1 where none is given. */
function parseAccept(accept: string): ReadonlyMap<string, number> {
  const entries = accept.split(',').map((part): [string, number] => {
    const [type = '', ...parameters] = part.split(';').map((piece) => piece.trim())
    const q = parameters.find((parameter) => /^q=/i.test(parameter))
    const value = q === undefined ? 1 : Number(q.slice(2))
    return [type.toLowerCase(), Number.isFinite(value) ? Math.min(1, Math.max(0, value)) : 0]
  })
  return new Map(entries)
}
