import { expect, it } from 'vitest'
import { checkDivider, dividerChanges, exampleAmplifiers } from '../src/index.js'
import { cell, knife } from './design.js'

const fine = {
  ...knife,
  reference: '47 ohm ±0.1 %',
  gainResistors: { feedback: '22 kohm ±0.1 %', ground: '1 kohm ±0.1 %' },
  amplifier: { ...exampleAmplifiers.zeroDrift, offsetVoltage: '2 uV', offsetDrift: '5 nV/K' },
}
/** Off by ±100 ppm/K · 25 K the reference alone is worth 0.25 %, more than twice its tolerance. */
const { changes } = dividerChanges({ ...fine, error: '0.7 %' } as never, cell)
const of = (id: string) => changes.find((one) => one.id === id)

it('offers resistors that drift less, and counts twice as much for the ratio of two', () => {
  expect(Object.keys(of('steadier-reference')!.puts)).toEqual(['referencePart.temperatureCoefficient'])
  const { puts, errors } = of('steadier-resistors')!
  const [ppm, ratio] = Object.values(puts).map((text) => Number.parseFloat(String(text)))
  expect([50, 25, 10]).toContain(ppm)
  if (ratio !== undefined) expect(ratio).toBe(2 * ppm!)
  for (const { before, after } of errors) expect(after).toBeLessThan(before)
})

it('gives a closer tolerance the coefficient that is usual for it', () => {
  const { puts, text } = of('closer-resistors')!
  expect(text).toMatch(/^±(0\.05|0\.01) %, 10 ppm\/K$/)
  expect(puts).toMatchObject({
    'referencePart.temperatureCoefficient': '10 ppm/K',
    'gainResistors.ratioDrift': '20 ppm/K',
  })
})

it('leaves a coefficient that is lower already', () => {
  const steady = {
    ...fine,
    error: '0.3 %',
    referencePart: { temperatureCoefficient: '5 ppm/K' },
    gainResistors: { ...fine.gainResistors, ratioDrift: '5 ppm/K' },
  }
  const { changes } = dividerChanges(steady as never, cell)
  expect(checkDivider(steady as never, cell, { simulation: false }).verdict).toBe('fails')
  expect(changes.flatMap(({ puts }) => Object.keys(puts)).filter((path) => /referencePart\.temp/.test(path))).toEqual(
    [],
  )
  expect(changes.map(({ id }) => id)).not.toContain('steadier-reference')
})
