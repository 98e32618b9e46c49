import type { FastifyInstance } from 'fastify'

/** Upper bounds of the duration buckets, in seconds. */
const BUCKETS = [0.001, 0.0025, 0.005, 0.01, 0.025, 0.05, 0.1, 0.25, 0.5, 1, 2.5, 5] as const

interface Series {
  readonly counts: number[]
  sum: number
  total: number
}

/** Counts answers by route and status, in the text form that Prometheus reads. Labels are route patterns: bounded. */
export function serveMetrics(app: FastifyInstance, stored: () => Promise<number>): void {
  const durations = new Map<string, Series>()
  const answers = new Map<string, number>()

  app.addHook('onResponse', async (request, reply) => {
    const route = request.routeOptions.url ?? 'none'
    const key = `method="${method(request.method)}",route="${route}"`
    const answer = `${key},status="${reply.statusCode}"`
    answers.set(answer, (answers.get(answer) ?? 0) + 1)
    observe(durations, key, reply.elapsedTime / 1000)
  })

  app.get('/metrics', async (_request, reply) => {
    const lines = [
      ...head('lidoff_http_requests_total', 'counter', 'Answers by route and status.'),
      ...[...answers].map(([labels, count]) => `lidoff_http_requests_total{${labels}} ${count}`),
      ...head('lidoff_http_request_duration_seconds', 'histogram', 'Time to answer by route.'),
      ...[...durations].flatMap(([labels, series]) => histogram(labels, series)),
      ...head('lidoff_teardowns', 'gauge', 'Teardowns that are stored.'),
      `lidoff_teardowns ${await stored()}`,
      ...head('process_resident_memory_bytes', 'gauge', 'Memory of the process.'),
      `process_resident_memory_bytes ${process.memoryUsage.rss()}`,
      ...head('process_cpu_seconds_total', 'counter', 'Processor time used, user and system.'),
      `process_cpu_seconds_total ${cpuSeconds()}`,
    ]
    return reply.type('text/plain; version=0.0.4; charset=utf-8').send(`${lines.join('\n')}\n`)
  })
}

/** Anything that is not a usual method would be a label of the caller's making. */
function method(name: string): string {
  return ['GET', 'HEAD', 'POST', 'OPTIONS'].includes(name) ? name : 'other'
}

function observe(into: Map<string, Series>, key: string, seconds: number): void {
  const series = into.get(key) ?? { counts: BUCKETS.map(() => 0), sum: 0, total: 0 }
  BUCKETS.forEach((bound, at) => {
    if (seconds <= bound) series.counts[at]!++
  })
  series.sum += seconds
  series.total++
  into.set(key, series)
}

function head(name: string, type: string, help: string): readonly string[] {
  return [`# HELP ${name} ${help}`, `# TYPE ${name} ${type}`]
}

function histogram(labels: string, { counts, sum, total }: Series): readonly string[] {
  const name = 'lidoff_http_request_duration_seconds'
  return [
    ...BUCKETS.map((bound, at) => `${name}_bucket{${labels},le="${bound}"} ${counts[at]}`),
    `${name}_bucket{${labels},le="+Inf"} ${total}`,
    `${name}_sum{${labels}} ${sum}`,
    `${name}_count{${labels}} ${total}`,
  ]
}

function cpuSeconds(): number {
  const { user, system } = process.cpuUsage()
  return (user + system) / 1e6
}
