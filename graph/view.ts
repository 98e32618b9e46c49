import type { Lack } from './lack.ts'
import type { Basis } from './quantity/basis.ts'
import type { Path, Shape } from './quantity/quantity.ts'
import type { Found, Query } from './query.ts'
import type { Settings } from './settings.ts'
import type { Trail } from './trail.ts'
import type { Draw } from './values.ts'

/**
 * The one window on a record. Everything computed reads through it and only through it, so that the inputs, the gaps,
 * the what-if, the uncertainty and the staleness of a figure all come from one mechanism.
 */
export interface View {
  /** Numbers in SI; all that are lacking are reported at once. */
  need<K extends string>(paths: Readonly<Record<K, Path>>): Readonly<Record<K, number>>
  /** A number that a figure can do without: logged, never blocking. */
  may(path: Path): number | undefined
  /** A word (material, kind); `mayWord` can do without. */
  word(path: Path): string
  mayWord(path: Path): string | undefined
  /** Several different reads; goes on past a lack and reports them together. */
  all<T extends readonly unknown[]>(...reads: { readonly [I in keyof T]: () => T[I] }): T
  /** The same read over many items; goes on past a lack and reports them together. */
  each<A, T>(items: readonly A[], read: (item: A) => T): readonly T[]
  /** The first way that works; a losing way is no lack. None works: one anyOf lack. */
  first<T>(ways: readonly Way<T>[]): { readonly way: string; readonly value: T }
  find(query: Query): Found
  /** As find, but lacks when empty; census complete and empty makes it not applicable. */
  some(query: Query): Found
  setting<K extends keyof Settings>(name: K): Settings[K]
  /** A shared intermediate, computed once per structure, draw and settings; its log joins the caller's. */
  model<T>(model: Model<T>, subject: Path): T
  /** Another figure, in SI, under the same draw. */
  figure(id: string, subject: Path): number
  /** The values that these figures stand on, as far as they can be computed: for figures about evidence itself. */
  evidence(figures: readonly { readonly id: string; readonly subject: Path }[]): readonly Evidenced[]
  /**
   * Deviation of a cause of doubt that stands in no record: a data table, a correlation. Zero at the values written.
   * Its path (`tables/…`) makes it the same cause in every record of the corpus.
   */
  doubt(path: Path, shape: Shape, about: string): number
  /**
   * A discrete choice (which metal is nearest, which cell of a grid): made at the values written and kept under every
   * draw, for a doubt about a value moves no relation.
   */
  choice<T>(key: string, choose: () => T): T
  /** Something a reader of the result must know: an assumption made, a bound, a distance. */
  note(text: string): void
  /**
   * Reads without passing on what is noted there: a whole network is read for one temperature, and what is said of each of
   * its ways concerns only those who ask for that way.
   */
  quietly<T>(read: () => T): T
  /** The result lies outside the validated range of a method. */
  beyond(text: string): void
  /** The record cannot support this: `refused` with the reason, or there is no such thing here. */
  fail(reason: string, kind?: 'refused' | 'not-applicable', at?: Path): never
}

export interface Evidenced {
  readonly path: Path
  readonly basis: Basis
}

export interface Way<T> {
  readonly name: string
  readonly read: () => T
}

/** A shared intermediate (loop matrix, solved network). */
export interface Model<T> {
  readonly id: string
  compute(view: View, subject: Path): T
}

/** Answers structural questions; memoised by whoever provides it. */
export type Answer = (query: Query, settings: Settings) => Found

/** Computes a figure by id within a view: a number, or two bounds where no value can be given. */
export type FigureCompute = (
  view: View,
  id: string,
  subject: Path,
) => number | { readonly low: number; readonly high: number }

export interface Viewer {
  readonly view: View
  /** Runs with the log on, at the values written; a lack is returned, not thrown. */
  record<T>(run: (view: View) => T): { readonly trail: Trail; readonly value?: T; readonly lack?: Lack }
  /** Runs under a draw with the log off; undefined where the computation lacks. */
  under<T>(draw: Draw, run: (view: View) => T): T | undefined
}
