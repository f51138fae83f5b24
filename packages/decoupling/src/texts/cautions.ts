import { type Caution, designAid, lithiumIon } from '@ohmward/budget'
import type { ReadDecoupling } from '../choice/choice.js'

const always: readonly Caution[] = [
  designAid,
  {
    id: 'stored-energy',
    text: 'A capacitor keeps its charge: it sparks, welds contacts and burns a ring. Discharge it before touching the board.',
    danger: true,
  },
  {
    id: 'start-up',
    text: 'Reset, load off, recovery, start, load on, reset: a loop that empties the cell. Start with a small test load, three good readings, and stay off after a failure.',
    catches: ['J09'],
  },
]

/** What a lithium-ion cell adds. */
const ofCell: readonly Caution[] = [
  lithiumIon,
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
      text: "Inputs from the raw rail stand above the logic rail by the diode's drop at rest and below it in the sag: series resistors at the pins, and no ratiometric reading between the two rails.",
      catches: ['J06'],
    })
  }
  if (load.pwm && source.inductance.upper > 0) {
    cautions.push({
      id: 'resonance',
      text: 'With inductance in the loop the rail resonates: near the PWM frequency or its multiples more capacitance can droop more, and less source resistance too.',
    })
  }
  if (source.currentLimit !== undefined) {
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
  const gap =
    source.inductance.upper === 0
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
