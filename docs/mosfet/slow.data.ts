import { run, watch } from '../.vitepress/build/sources.ts'

/** One drive of the comparison, at one frequency. */
export interface Drive {
  readonly name: string
  readonly frequency: string
  readonly verdict: string
  /** First margin that doesn't hold; empty where all do. */
  readonly fault: string
  readonly t_r: number
  readonly t_f: number
  readonly P_cond: number
  readonly P_sw: number
  /** °C; absent in runaway. */
  readonly T_typical?: number
  readonly T_worst?: number
}

/** The second choice: the same knife with a pull-up of ten times the resistance, at two frequencies. */
export declare const data: { readonly drives: readonly Drive[]; readonly query: string }

const code = `
import { checkMosfet, exampleChoice, exampleConditions, exampleDrives } from '@ohmward/mosfet'
import { form } from './mosfet/form.ts'
import { demoOf } from './.vitepress/theme/block.ts'
import { toQuery } from './.vitepress/theme/link.ts'

const celsius = ({ junction }) => (junction.kind === 'balance' ? junction.T_j : undefined)
const row = (name, drive, frequency) => {
  const pwm = { ...exampleChoice.pwm, frequency }
  const { verdict, margins, values, typical, worst } = checkMosfet({ ...exampleChoice, drive, pwm }, exampleConditions, { simulation: false })
  const fault = margins.find((margin) => margin.verdict !== 'holds')?.name ?? ''
  const { t_r, t_f, P_sw, P_ctop, P_cond = P_ctop } = values
  return { name, frequency, verdict, fault, t_r, t_f, P_cond, P_sw, T_typical: celsius(typical), T_worst: celsius(worst) }
}
const fast = exampleDrives['NPN and pull-up of 1 kohm']
const slowName = 'NPN and pull-up of 10 kohm'
const slowDrive = exampleDrives[slowName]
const slow = Object.entries(form.groups.find(({ id }) => id === 'drive').preset.choices[slowName])
const texts = { ...demoOf(form), ...Object.fromEntries(slow), 'choice.pwm.frequency': '4 kHz' }

export const data = {
  drives: [
    row('pull-up of ' + fast.pull.resistance, fast, '100 Hz'),
    row('pull-up of ' + fast.pull.resistance, fast, '4 kHz'),
    row('pull-up of ' + slowDrive.pull.resistance, slowDrive, '100 Hz'),
    row('pull-up of ' + slowDrive.pull.resistance, slowDrive, '4 kHz'),
  ],
  query: toQuery(form, texts),
}
`

export default { watch, load: async () => (await run<{ data: typeof data }>(code)).data }
