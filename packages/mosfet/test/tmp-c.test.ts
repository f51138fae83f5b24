import { it } from 'vitest'
import {
  exampleChoice as c,
  checkMosfet,
  exampleDrives as d,
  exampleConditions as k,
  exampleTransistors as t,
} from '../src/index.js'

const show = (a: any) => {
  console.log(a.summary)
  console.log(JSON.stringify(a.typical), JSON.stringify(a.worst))
  for (const m of a.margins)
    console.log(
      m.id.padEnd(20),
      m.verdict.padEnd(8),
      'worst',
      m.worst.toPrecision(4),
      'limit',
      m.limit.toPrecision(4),
      'nom',
      m.nominal.toPrecision(4),
      'p',
      m.probability,
      m.reason ?? '',
    )
  console.log(a.cautions.map((x: any) => x.id).join(' '))
}
it('x', () => {
  const a = checkMosfet(c, k)
  show(a)
  console.log(a.values)
  console.log(a.derivation.map((s) => s.symbol + ' = ' + s.expression + ' = ' + s.value).join('\n'))
  show(checkMosfet({ ...c, drive: d.inverterSlow, pwm: { frequency: '4 kHz', duty: { from: 0.05, to: 0.95 } } }, k))
  show(checkMosfet({ ...c, transistor: t.pChannelLogicLevel, thermal: { junctionToAmbient: '70 K/W ±20 %' } }, k))
  show(
    checkMosfet(
      {
        ...c,
        transistor: t.nChannelLowVoltage,
        drive: d.pin,
        thermal: { junctionToAmbient: '70 K/W ±20 %' },
        wiring: { sharedSource: '2 mohm' },
      },
      k,
    ),
  )
  for (let i = 0; i < 3; i++) {
    const t0 = performance.now()
    for (let j = 0; j < 20; j++) checkMosfet(c, k, { simulation: false })
    console.log((performance.now() - t0) / 20, 'ms')
  }
}, 60000)
