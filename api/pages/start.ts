import type { TeardownRow } from '../../graph/store/store.ts'
import { CAUTIONS } from '../cautions.ts'
import { plainLine } from '../cli/plain-text.ts'
import { tables } from '../export/tables.ts'
import { VERSION } from '../place.ts'
import { type Html, html } from './html.ts'
import { queriesToTry } from './queries.ts'

/** What is shown of a corpus that grows large; the rest is a query away. */
const ROWS_SHOWN = 50

/** The start page: what is stored, three queries that run, the tables, the cautions. No script, nothing from elsewhere. */
export function startPage(rows: readonly TeardownRow[], total: number): string {
  return page(html`
    <h1>lidoff</h1>
    <p>A parts-knowledge graph and benchmarking database for teardowns of power-electronic units. Version ${VERSION}.</p>
    <h2>What is stored</h2>
    ${total === 0 ? html`<p>Nothing yet. <code>lidoff demo</code> loads the demo units, <code>lidoff add FILE</code> a sheet of yours.</p>` : stored(rows, total)}
    <h2>Three queries to try</h2>
    <p>Each link runs it and shows the answer as JSON. <a href="/explore/">The explorer</a> is for writing your own; it works without a network.</p>
    ${queriesToTry(rows).map(({ title, query }) => html`<h3><a href="/graphql?query=${encodeURIComponent(query)}">${title}</a></h3><pre tabindex="0"><code>${query}</code></pre>`)}
    <h2>Tables and contract</h2>
    <ul>
      ${tables.map(({ name, about }) => html`<li><a href="/export/${name}.csv">${name}.csv</a>: ${about}</li>`)}
      <li><a href="/schema.graphql">schema.graphql</a>: the contract of <code>/graphql</code>.</li>
      <li><a href="/healthz">healthz</a>, <a href="/readyz">readyz</a>, <a href="/metrics">metrics</a>: for whoever runs this server.</li>
    </ul>
    <h2>Cautions</h2>
    ${CAUTIONS.map(({ title, text }) => html`<p class="caution"><strong>${title}.</strong> ${text}</p>`)}`)
}

function stored(rows: readonly TeardownRow[], total: number): Html {
  return html`<table>
      <caption>${total} records${total > rows.length ? `, the first ${rows.length} of them` : ''}</caption>
      <thead><tr><th scope="col">id</th><th scope="col">title</th><th scope="col">kind</th><th scope="col">revision</th></tr></thead>
      <tbody>${rows.map(({ id, title, kind, revision }) => html`<tr><th scope="row">${id}</th><td>${plainLine(title)}</td><td>${kind}</td><td>${revision}</td></tr>`)}</tbody>
    </table>`
}

function page(body: Html): string {
  return html`<!doctype html>
<html lang="en">
  <head>
    <meta charset="utf-8">
    <meta name="viewport" content="width=device-width, initial-scale=1">
    <title>lidoff</title>
    <link rel="stylesheet" href="/assets/page.css">
    <link rel="icon" href="/assets/mark.svg" type="image/svg+xml">
  </head>
  <body>
    <main>${body}
    </main>
  </body>
</html>
`.html
}

export const START_ROWS = ROWS_SHOWN
