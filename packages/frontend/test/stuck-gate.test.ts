import { checkDesign, type Design } from '@ohmward/frontend'
import { expect, it } from 'vitest'
import { mended } from './shared.js'

/** The mended knife with a transistor whose plateau lies elsewhere, its pull and gate resistor those of the design. */
const rowsWith = (plateauVoltage: string) => {
  const { transistor } = mended.mosfet
  const design = {
    ...mended,
    mosfet: { ...mended.mosfet, transistor: { ...transistor, plateauVoltage } },
    requirements: { ...mended.requirements, power: '3 W', powerError: '60 %' },
  } as Design
  const { rows } = checkDesign(design, { charges: 3 })
  return (id: string) => rows.find((row) => row.id === id)!.margin
}

it('a gate that may stay below the plateau leaves no row sure that goes by when the switch is on', () => {
  // Full cells of at most 4.3 V pull the gate no further than that: 4.5 V are never reached, 1.5 V at every charge.
  const ids = ['mosfet/on-edge', 'hall/settling', 'hall/on-window', 'power/reaches', 'power/error']
  const [there, never] = [rowsWith('1.5 V'), rowsWith('4.5 V')]
  for (const id of ids) {
    expect(there(id).verdict, id).toBe('holds')
    expect(never(id).verdict, id).toBe('not sure')
    expect(never(id).reason, id).toContain('plateau')
  }
  expect(never('mosfet/gate-plateau').verdict).toBe('fails')
})
