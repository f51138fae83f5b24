import { compile } from 'mathjs'
import { simulate } from '../../../packages/budget/dist/index.js'
import { chainFormulas } from '../../../packages/divider/dist/index.js'
import { normal, simulateByHand, uniform } from '../by-hand.mjs'
import * as small from '../chain.mjs'
import { measured as chain, dividerByHand, fill, inputs, model, row } from '../divider.mjs'
import { interleaved, median, repeated, time } from '../measure.mjs'

const TRIALS = 1_000_000
const ours = () => simulate(inputs, model, { fill, trials: TRIALS })

const against = (call) => {
  const [mine, hand] = interleaved([call, () => dividerByHand(TRIALS)])
  return { value: mine / hand, detail: `${mine.toFixed(0)} ms, by hand ${hand.toFixed(0)} ms` }
}

/** Four models of other shapes, each through all the engine's ways. */
function runOthers() {
  const at = (names) =>
    Object.fromEntries(names.map((name) => [name, { ...inputs.R_f, lower: 0.9, nominal: 1, upper: 1.1 }]))
  const models = [
    [at(['a', 'b', 'c']), (x) => x.a * x.b + x.c, (c, i) => ({ a: c.a[i], b: c.b[i], c: c.c[i] })],
    [at(['p', 'q']), (x) => x.p / x.q, (c, i) => ({ p: c.p[i], q: c.q[i] })],
    [at(['U']), (x) => Math.sqrt(x.U), (c, i) => ({ U: c.U[i] })],
    [
      at(['k', 'l', 'm', 'n']),
      (x) => x.k - x.l * x.m + x.n,
      (c, i) => ({ k: c.k[i], l: c.l[i], m: c.m[i], n: c.n[i] }),
    ],
  ]
  for (const [others, model, literal] of models) {
    for (const options of [{ trials: 200_000 }, { trials: 200_000, row: literal }, {}]) simulate(others, model, options)
  }
}

/** The same through the expressions of the chain's formulas, compiled: its own loop, the same generator. */
function throughMathjs(trials) {
  const steps = chainFormulas().map(({ symbol, expression }) => [symbol, compile(expression)])
  const draws = Object.entries(inputs).map(([name, input]) => {
    if (typeof input === 'number') return [name, () => input]
    const { nominal, lower, upper, distribution } = input
    if (distribution.kind === 'normal') return [name, () => nominal + ((upper - lower) / 6) * normal()]
    return [name, () => lower + (upper - lower) * uniform()]
  })
  const scope = {}
  const values = new Float64Array(trials)
  for (let i = 0; i < trials; i++) {
    for (const [name, draw] of draws) scope[name] = draw()
    scope.V_exc = scope.V_amp = scope.V_ref = scope.V_rail
    scope.V_add = scope.e_add = 0
    for (const [symbol, step] of steps) scope[symbol] = step.evaluate(scope)
    values[i] = scope.R_ind
  }
  values.sort()
  return values
}

export const entries = [
  {
    name: 'simulation against a loop by hand',
    measures: `10⁶ plain trials with mean, u and both 95 % intervals; ${chain}, the block's own loop`,
    limit: { atMost: 1.3 },
    unit: '×',
    run: () => against(ours),
  },
  {
    name: 'simulation after four other models',
    measures: `the same once four other models have run through the engine; ${chain}`,
    limit: { atMost: 2 },
    unit: '×',
    run: () => {
      runOthers()
      return against(ours)
    },
  },
  {
    name: 'simulation through a row literal',
    measures: `the same through the block's row literal instead of its own loop, after the four; ${chain}`,
    limit: { atMost: 2.5 },
    unit: '×',
    run: () => against(() => simulate(inputs, model, { row, trials: TRIALS })),
  },
  {
    name: 'simulation of a model of a user',
    measures:
      'a plain function of named inputs, without row or loop, through the accessor view; a smaller low-ohm chain, 27 inputs, 10 random, 1 output, 1 thread',
    limit: { atMost: 3 },
    unit: '×',
    run: () => {
      const user = () => simulate(small.inputs, small.reading, { trials: TRIALS })
      const [mine, hand] = interleaved([user, () => simulateByHand(TRIALS)])
      return { value: mine / hand, detail: `${mine.toFixed(0)} ms, by hand ${hand.toFixed(0)} ms` }
    },
  },
  {
    name: 'simulation against mathjs',
    measures: `time of a trial, the chain's expressions compiled by mathjs, over ours; ${chain}`,
    limit: { atLeast: 30 },
    unit: '×',
    run: () => {
      const [mine, theirs] = interleaved([ours, () => throughMathjs(20_000)], { rounds: 5 })
      return { value: theirs / 20_000 / (mine / TRIALS), detail: `${((theirs / 20_000) * 1e3).toFixed(2)} µs a trial` }
    },
  },
  {
    name: 'lattice points against plain trials',
    measures: `time to a 95 % interval good to 1 % of u, plain over lattice, mean of ten seeds; ${chain}`,
    limit: { atLeast: 10 },
    unit: '×',
    run: () => {
      const run = (method) => (seed) => simulate(inputs, model, { fill, method, seed })
      repeated(100, run('quasi'))()
      repeated(10, run('plain'))()
      const times = { plain: [], quasi: [] }
      for (let k = 0; k < 9; k++) {
        for (const method of ['plain', 'quasi']) times[method].push(time(repeated(10, run(method))) / 10)
      }
      const trials = (method) => median([0, 1, 2, 3, 4, 5, 6].map((seed) => run(method)(seed).trials))
      const [plain, quasi] = [median(times.plain), median(times.quasi)]
      return {
        value: plain / quasi,
        detail: `plain ${plain.toFixed(1)} ms (${trials('plain')} trials), lattice ${quasi.toFixed(2)} ms (${trials('quasi')})`,
      }
    },
  },
  {
    name: 'true error of lattice points',
    measures: `rms distance of both ends from 2·10⁷ plain trials over 1 % of u, 100 seeds; ${chain}`,
    limit: { atMost: 1 },
    unit: '×',
    run: () => {
      const truth = simulate(inputs, model, { fill, trials: 20_000_000, seed: 12345 })
      let squares = 0
      for (let seed = 0; seed < 100; seed++) {
        const { interval } = simulate(inputs, model, { fill, seed })
        for (const end of [0, 1]) squares += ((interval[end] - truth.interval[end]) / truth.u) ** 2 / 200
      }
      return { value: Math.sqrt(squares) / 0.01 }
    },
  },
]
