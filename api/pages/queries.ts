import type { TeardownRow } from '../../graph/store/store.ts'

export interface QueryToTry {
  readonly title: string
  readonly query: string
}

/** Queries that run on what is stored; the record they name is the first, or one of the demo. */
export function queriesToTry([first]: readonly Pick<TeardownRow, 'id'>[]): readonly QueryToTry[] {
  const id = JSON.stringify(first?.id ?? 'ferry-7-drive')
  return [
    {
      title: 'Power per litre and per kilogram, ranked, with whoever is left out and why',
      query: `{
  benchmark(metrics: [POWER_DENSITY, SPECIFIC_POWER]) {
    rows { rank tiedWith teardown { id title } figures { metric value uncertainty low high unit weakestBasis } }
    left { teardown metric reason }
  }
}`,
    },
    {
      title: 'One figure with its working, and what is missing where it has no value',
      query: `{
  teardown(id: ${id}) {
    title
    figures(metrics: [LINK_ENERGY]) {
      subject status value uncertainty unit
      inputs { path value unit basis share }
      missing { path asks }
      cautions { title text }
    }
  }
}`,
    },
    {
      title: 'Which parts share a coolant passage with a power semiconductor',
      query: `{
  components(where: { sharesPassageWith: { class: ["power-die"] } }, first: 10) {
    totalCount
    edges { node { id class coolantPositions { stage passage { path } upstream { path } } } }
  }
}`,
    },
  ]
}
