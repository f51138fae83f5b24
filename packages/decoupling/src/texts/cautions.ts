import type { Caution } from '@ohmward/budget'
import { leastOfLargest } from '../chain/capacitor.js'
import type { ReadDecoupling } from '../choice/choice.js'

const always: readonly Caution[] = [
  {
    id: 'design-aid',
    text: 'A calculation is a design aid: verify it on the bench. Local codes and licensed practice decide.',
  },
  {
    id: 'stored-energy',
    text: 'A capacitor keeps its charge: it sparks, welds contacts and burns a ring. Discharge it before touching the board.',
  },
  {
    id: 'start-up',
    text: 'Reset, load off, recovery, start, load on, reset: a loop that empties the cell. Start with a small test load, three good readings, and stay off after a failure.',
    catches: ['J09'],
  },
]

/** What a lithium-ion cell adds. */
const ofCell: readonly Caution[] = [
  {
    id: 'cell',
    text: 'Lithium-ion cells burn when shorted, over-charged, over-discharged or hot. Protection is the job of a part made for it.',
  },
  {
    id: 'cell-state',
    text: 'The resistance of a cell by direct current, cold, aged and nearly empty, is several times its 1 kHz value when new.',
    catches: ['K01'],
  },
]

/** What no margin covers, or what can hurt. */
export function cautionsOf(read: ReadDecoupling): Caution[] {
  const { ambient, brownOutEnabled, capacitors, logicRail, load, source } = read
  const isCell = source.kind === 'cell'
  const cautions = [...always, ...(isCell ? ofCell : []), ...hotPlug(read)]
  if (!brownOutEnabled) {
    cautions.push({
      id: 'brown-out-off',
      text: 'Without brown-out reset a controller below its supply can hang until it is reset by hand, and drain the cell.',
      catches: ['J09'],
    })
  }
  for (const { name, bias, cold, fields } of capacitors) {
    if (bias === undefined && fields.lifeHours.upper === 0) {
      cautions.push({
        id: 'bias',
        text: `${name}: a class II ceramic loses a third to two thirds of its capacitance to dc bias; none is stated here.`,
        catches: ['J01'],
      })
    }
    if (cold === undefined && fields.lifeHours.upper > 0 && ambient.from < 15) {
      cautions.push({
        id: 'cold',
        text: `${name}: a wet electrolytic has two to three times its series resistance at 0 °C and six times and more at -20 °C; no curve "cold" is stated here.`,
        catches: ['J03'],
      })
    }
  }
  if (logicRail?.behind === 'diode') {
    cautions.push({
      id: 'diode-rail',
      text: "Inputs from the raw rail stand above the logic rail by the diode's drop at rest and below it in the sag: series resistors at the pins, and no ratiometric reading between the two rails.",
      catches: ['J06'],
    })
  }
  if (load.pwm && isCell && source.fields.inductance.upper > 0) {
    cautions.push({
      id: 'resonance',
      text: 'With inductance in the loop the rail resonates: near the PWM frequency or its multiples more capacitance can droop more, and less source resistance too.',
    })
  }
  if (source.kind === 'limited supply') {
    cautions.push({
      id: 'weak-port',
      text: 'A port may shut down instead of holding its current: keep the load locked while no cell is there.',
      catches: ['J13'],
    })
  }
  return cautions
}

/** A charged source on empty capacitors: what its leads do, and what of that no margin holds. */
function hotPlug({ source, insertion }: ReadDecoupling): Caution[] {
  const isBlind = source.kind === 'limited supply' || source.fields.inductance.upper === 0
  const gap = isBlind
    ? ' No inductance of the loop is calculated here (about 1 µH for each metre there and back): the peak is missing.'
    : insertion.railMaximum.upper === 0
      ? ' No absolute maximum of what hangs on the rail is stated: only the rated voltages of the capacitors hold the peak.'
      : ''
  return [
    {
      id: 'hot-plug',
      text: `Plugged onto empty capacitors, leads ring up to twice the source's voltage, and further where capacitance falls with voltage; contacts arc and bounce, and each bounce begins anew. A lossy electrolytic beside the ceramics, or a clamp, damps it.${gap}`,
      catches: ['J12'],
    },
  ]
}

/** What is taken for granted, in sentences. */
export function assumptionsOf(read: ReadDecoupling): string[] {
  const { age, source, load, capacitors, logicRail } = read
  const list = [
    'The load current rises and falls in a straight line.',
    'After a step capacitors keep the capacitance that they have at the rail at rest; their series resistance does not change with frequency.',
    'Limits without a stated distribution are rectangular (JCGM 100:2008, 4.3.7).',
    'Budgets and probabilities are those at the worst of the conditions, where the margin is least.',
  ]
  if (capacitors.some(({ bias }) => bias !== undefined)) {
    list.push(
      'Points of dc bias are small-signal: dQ/dV at that voltage. At insertion a capacitor charges from 0 V through all of them, and keeps the last one beyond it.',
    )
  }
  if (capacitors.some(({ fields: { seriesResistance: r } }) => r.upper > 0 && r.lower === r.upper)) {
    list.push(
      `A series resistance without a range is the largest: the sag counts all of it, the inrush ${100 * leastOfLargest} % (usual parts have a third to two thirds), the plug-in peak either, whichever is worse.`,
    )
  }
  if (source.kind === 'cell') {
    list.push(
      'The cell resistance is that by direct current: at the beginning of a short burst it is less, so the rail falls less, but inrush and peak at insertion are larger than stated.',
    )
  }
  if (age.to > 0) {
    const places = 'What the end of life takes from cell and electrolytics is lost in full at the oldest age'
    list.push(
      `${places}, ${age.to} years, in a straight line from new; at insertion no series resistance has grown; capacitance has fallen by all that is stated, so let the ages begin at 0 where the inrush counts.`,
    )
  }
  if (source.kind === 'limited supply')
    list.push('The source holds its current at the limit; inductances are left out.')
  if (load.kind === 'power')
    list.push('Inductances of the capacitors are left out: a constant power needs a capacitor at its terminals.')
  if (capacitors.some(({ fields }) => fields.ageing.upper > 0)) {
    list.push('Ageing counts from one hour after the last heating, linear in decades of hours.')
  }
  if (logicRail?.behind === 'diode') {
    list.push(
      'The diode rail is full when the load is switched on; its largest current is drawn all the while the diode blocks.',
      'The logic current is constant and the diode leaks nothing back: count in it what a hot Schottky diode leaks, and what a converter draws more as its voltage falls.',
      'What the diode draws in pulses lowers the peaks of the rail no further.',
    )
  }
  if (load.duration < Number.POSITIVE_INFINITY)
    list.push('A burst begins from rest: the capacitors have recovered from the one before.')
  if (load.pwm)
    list.push(
      'PWM runs until the rail repeats itself; its start is sought from the worst board of that on, one part at a time.',
    )
  return list
}
