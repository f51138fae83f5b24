import type { DecouplingAssessment } from '@ohmward/decoupling'
import { load, watch } from '../.vitepress/build/sources.ts'
import { argumentsOf, type Block, demoOf } from '../.vitepress/theme/block.ts'
import type { controllers, loads } from './form.ts'

/** The page's other cases, computed at build: a lower brown-out, and the blade under PWM. */
export interface Others {
  readonly lower: DecouplingAssessment
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
    return {
      lower: check(form.controllers['brown-out at 2.1 V']),
      pwm: check(form.loads['PWM of 20 kHz, half of the time']),
    }
  },
}
