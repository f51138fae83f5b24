import { type Assessment, type Block, holdRow, type Margin, plainMargin } from '@ohmward/budget'
import { decoupling } from '@ohmward/decoupling'
import { divider } from '@ohmward/divider'
import { hall } from '@ohmward/hall'
import { mosfet } from '@ohmward/mosfet'
import { InputError } from '@ohmward/quantity'
import { currentLimits } from '@ohmward/supply'
import type { ReadDesign } from '../design/record.js'
import { type BlockAt, decouplingAt, dividerAt, type Firmware, hallAt, mosfetAt } from './choices.js'
import type { State } from './place.js'
import type { SolvedPlace } from './solve.js'

/** The parts of a design whose rows are held. */
export type BlockName = 'supply' | 'divider' | 'hall' | 'mosfet' | 'decoupling'

/** A row of a block, held at a place in a state. */
export interface RowAt {
  readonly block: BlockName
  readonly state: State
  readonly margin: Margin
}

/** Holds every row of every block at a place, through the blocks themselves. */
export function holdAt(design: ReadDesign, solved: SolvedPlace, firmware: Firmware): RowAt[] {
  const { to: duty } = design.pwm.duty
  return [
    ...held('load off', divider, dividerAt(design, solved, firmware)),
    ...held('load on', hall, hallAt(design, solved, firmware)),
    ...held('load on', mosfet, mosfetAt(design, solved)),
    ...held('load on', decoupling, decouplingAt(design, solved)),
    ...(duty < 1 ? held('PWM', decoupling, decouplingAt(design, solved, duty)) : []),
    ...supplyRows(design, solved),
  ]
}

function held<C, D, R, A extends Assessment>(state: State, block: Block<C, D, R, A>, here: BlockAt<C, D>): RowAt[] {
  const name = block.name as BlockName
  try {
    const setup = block.setup(block.at(block.read(here.choice, here.conditions), here.at))
    return setup.rows.map((row) => ({ block: name, state, margin: holdRow(row).margin }))
  } catch (error) {
    if (error instanceof InputError) return [{ block: name, state, margin: refused(error) }]
    throw error
  }
}

/** A block that refuses what the supply leaves it, such as a limit above the voltage at rest: nothing holds there. */
function refused(error: InputError): Margin {
  const text = {
    id: 'refused',
    name: 'supply that the block can work with',
    unit: '1',
    sense: 'at least',
    catches: [],
  } as const
  return { ...plainMargin(text, 0, 1), reason: error.message }
}

/** Limits on the current of cells and path, at the largest duty for long and while it is on. */
function supplyRows({ supply, pwm }: ReadDesign, { current, place }: SolvedPlace): RowAt[] {
  const share = Math.sqrt(pwm.duty.to)
  const { lower, nominal, upper } = current
  const rms = { ...current, lower: lower * share, nominal: nominal * share, upper: upper * share }
  return currentLimits(supply, rms, current, place.celsius).map(({ name, what, limit, slack }) => {
    const id = `${what} of ${name}`.replace(/\W+/g, '-')
    const text = { id, name: `${what} of ${name}`, unit: 'A', sense: 'at most', catches: ['K03', 'K11'] } as const
    const middle = what === 'pulse current' || what === 'trip' ? nominal : nominal * share
    return {
      block: 'supply',
      state: 'load on',
      margin: plainMargin(text, limit - slack, limit, Math.min(middle, upper)),
    }
  })
}
