import { checkDesign, exampleDesign } from '@ohmward/frontend'
import { expect, it } from 'vitest'

it('x', () => {
  const t0 = performance.now()
  const a = checkDesign(exampleDesign, { charges: 9 })
  console.log(performance.now() - t0, a.points.length)
  console.log(a.summary)
  for (const r of a.rows.slice(0, 16)) console.log(r.id, r.margin.verdict, r.margin.worst, r.margin.limit, r.place, r.failsFrom, r.margin.reason)
  expect(a.verdict).toBe('fails')
}, 60000)
