import { readFileSync } from 'node:fs'
import { parse } from 'yaml'

/** A part of a demo sheet as it is typed: texts, read here without the product's own reader. */
export interface TypedPart {
  readonly id: string
  readonly at?: string
  readonly inductance?: string
  readonly run?: { readonly from: string; readonly to: string; readonly width: string; readonly thickness: string }
  readonly plate?: { readonly corner: string; readonly size: string }
  readonly beside?: { readonly gap: string }
  readonly each?: Readonly<Record<string, Placed>> | readonly Placed[]
  readonly terminals?: Readonly<Record<string, unknown>>
}

interface Placed {
  readonly at: string
  readonly terminals?: Readonly<Record<string, unknown>>
}

export function sheetText(unit: string): string {
  return readFileSync(new URL(`../../seeds/${unit}.yaml`, import.meta.url), 'utf8')
}

export function partsOf(text: string): (id: string) => TypedPart {
  const { parts } = parse(text) as { parts: readonly TypedPart[] }
  return (id) => {
    const found = parts.find((part) => part.id === id)
    if (!found) throw new Error(`the sheet has no part ${id}`)
    return found
  }
}

/** All numbers of a text before its first bracket and tolerance: `210 x 64 x 1.0 mm (measured)` → 210, 64, 1. */
export function numbers(text: string | undefined): readonly number[] {
  if (text === undefined) throw new Error('the sheet does not say')
  return [...text.split(/[±(]/)[0]!.matchAll(/-?\d+(\.\d+)?/g)].map(([one]) => Number(one))
}

export const first = (text: string | undefined): number => numbers(text)[0]!

/** Where the copies of a part are. */
export function places(part: TypedPart): readonly (readonly number[])[] {
  return Object.values(part.each ?? {}).map((one: Placed) => numbers(one.at))
}

/** Offset of a terminal from the place of its part. */
export function offset(part: Pick<TypedPart, 'terminals'>, terminal: string): readonly number[] {
  return numbers((part.terminals?.[terminal] as { at?: string } | undefined)?.at)
}
