import { type Caution, designAid, lithiumIon } from '@ohmward/budget'
import type { ReadDecoupling } from '../choice/choice.js'

const always: readonly Caution[] = [
  designAid,
  {
    id: 'stored-energy',
    text: 'A capacitor keeps its charge: it sparks, welds contacts and heats a ring on a finger. Discharge it before touching the board.',
    danger: true,
  },
  {
    id: 'start-up',
    text: 'Reset, load off, recovery, start, load on, reset: a loop that drains the cell. Start with a small test load and three good readings, and stay off after a failure.',
    catches: ['J09'],
  },
]

/** What a lithium-ion cell adds. */
const ofCell: readonly Caution[] = [
  lithiumIon,
  {
    id: 'cell-state',
    text: 'The dc resistance of a cell that is cold, aged and nearly empty is several times the 1 kHz value of a new one.',
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
    // A life or a wear is what electrolytics have.
    const isElectrolytic =
      fields.lifeHours.upper > 0 || fields.wornCapacitance.lower < 1 || fields.wornResistance.upper > 1
    if (bias === undefined && !isElectrolytic) {
      cautions.push({
        id: 'bias',
        text: `${name}: a class II ceramic loses a third to two thirds of its capacitance to dc bias; none is stated here.`,
        catches: ['J01'],
      })
    }
    if (cold === undefined && isElectrolytic && ambient.from < 15) {
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
      text: "Inputs from the raw rail are above the logic rail by the diode's drop at rest and below it in the sag: fit series resistors at the pins, and read nothing ratiometrically across the two rails.",
      catches: ['J06'],
    })
  }
  if (load.pwm && source.inductance.upper > 0) {
    cautions.push({
      id: 'resonance',
      text: 'With inductance in the loop the rail resonates: near the PWM frequency or its multiples more capacitance, or less source resistance, can deepen the droop.',
    })
  }
  if (source.currentLimit !== undefined) {
    cautions.push({
      id: 'weak-port',
      text: 'A port may shut down instead of limiting its current: lock the load out while no cell is fitted.',
      catches: ['J13'],
    })
  }
  return cautions
}

/** A charged source on empty capacitors: what its leads do, and what of that no margin holds. */
function hotPlug({ source, insertion }: ReadDecoupling): Caution[] {
  const gap =
    source.inductance.upper === 0
      ? ' Loop inductance is 0 here (about 1 µH for each metre there and back): the peak is not calculated.'
      : insertion.railMaximum.upper === 0
        ? ' No absolute maximum of the parts on the rail is stated: the peak is checked only against the rated voltages of the capacitors.'
        : ''
  return [
    {
      id: 'hot-plug',
      text: `Plugged onto discharged capacitors, leads ring up to twice the source voltage, or higher where capacitance falls with voltage; contacts arc and bounce, and each bounce starts it again. A lossy electrolytic across the ceramics damps it; a clamp limits it.${gap}`,
      catches: ['J12'],
    },
  ]
}
