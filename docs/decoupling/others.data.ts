import type { Changes } from '@ohmward/budget'
import type * as library from '@ohmward/decoupling'
import type { DecouplingAssessment } from '@ohmward/decoupling'
import { load, run, watch } from '../.vitepress/build/sources.ts'
import { argumentsOf, type Block, demoOf } from '../.vitepress/theme/block.ts'
import type { controllers, loads } from './form.ts'

/** A candidate for the burst, and what came of it. */
export interface Candidate {
  readonly name: string
  readonly count: number
  /** mm³ */
  readonly volume: number | null
  /** Slack of its tightest margin in words, or why it was turned down. */
  readonly says: string
}

/** The page's other cases, computed at build: the one that no capacitor saves, the blade under PWM, and a burst sized. */
export interface Others {
  /** What can be done about the impossible case, each change tried. */
  readonly waysOut: Changes
  readonly sized: {
    readonly limit: string
    readonly duration: string
    readonly choices: readonly Candidate[]
    readonly rejected: readonly Candidate[]
  }
  readonly impossible: DecouplingAssessment
  readonly pwm: DecouplingAssessment
}

export declare const data: Others

const short = <T>(value: T): T =>
  JSON.parse(JSON.stringify(value, (_, item) => (typeof item === 'number' ? Number(item.toPrecision(6)) : item)))

export default {
  watch,
  async load(): Promise<Others> {
    const { block } = await load<{ block: Block }>('decoupling/block.ts')
    const form = await load<{ controllers: typeof controllers; loads: typeof loads }>('decoupling/form.ts')
    const check = (more: object) => {
      const a = block.check(argumentsOf(block, { ...demoOf(block), ...more }), false) as DecouplingAssessment
      return short({ ...a, derivation: [], cautions: [], assumptions: [] })
    }
    const { sizeDecoupling } = await run<typeof library>("export * from '@ohmward/decoupling'")
    const { choice, conditions } = argumentsOf(block, demoOf(block))
    const { capacitors: _, limits: __, load: blade, ...base } = choice
    const [limit, duration] = ['2.7 V ±2 %', '100 us']
    const requirement = { ...base, limits: { brownOut: limit }, load: { ...blade, duration }, conditions, most: 4 }
    const { choices, rejected } = sizeDecoupling(requirement as unknown as library.DecouplingRequirement)
    const candidate = (parts: library.ListedChoice, says: string, volume: number | null): Candidate => {
      const [{ name = '', count = 1 }] = parts.capacitors as [library.Capacitor]
      return { name: name.replace('uF', 'µF').replace(/(\d) (.?F)/, '$1\u00a0$2'), count: Number(count), volume, says }
    }
    const sized = {
      limit,
      duration: '100 µs',
      choices: choices.map(({ choice: parts, assessment, volume }) =>
        candidate(parts, assessment.summary.replace(/^Holds: /, ''), volume),
      ),
      rejected: rejected.map(({ choice: parts, reason }) => candidate(parts, reason, null)),
    }
    return {
      sized: short(sized),
      impossible: check(form.controllers['brown-out at 2.7 V, sensor from 2.7 V']),
      waysOut: short(
        block.changes!(
          argumentsOf(block, { ...demoOf(block), ...form.controllers['brown-out at 2.7 V, sensor from 2.7 V'] }),
        ),
      ),
      pwm: check(form.loads['PWM of 20 kHz, half of the time']),
    }
  },
}
