import { format, InputError, nearestName, readSpread } from '@ohmward/quantity'
import { behindBoard } from '../supply/path.js'
import type { Rails } from '../supply/rails.js'
import { mainRail, railOf } from './rails.js'
import { givenByDesign, type ReadFields } from './record.js'

/** What the design gives to a block doesn't stand in the block's part. */
export function refuseTwice(design: ReadFields): void {
  for (const [block, fields] of Object.entries(givenByDesign)) {
    const part: object = design[block as keyof typeof givenByDesign]
    for (const field of fields) {
      if (!Object.hasOwn(part, field)) continue
      const value = Object.entries(part).find(([name]) => name === field)?.[1]
      const allowed = 'nothing: the design states it for all blocks'
      throw new InputError({ field: `${block}.${field}`, value, allowed })
    }
  }
}

/** The board hangs on a tap of the path. */
export function refuseBoard({ supply, board: value }: ReadFields): void {
  const taps = (supply.path ?? []).flatMap(({ tap }) => tap ?? [])
  if (value === undefined || taps.includes(value)) return
  const near = nearestName(value, taps)
  const hint = near === undefined ? '' : `Did you mean ${near}?`
  const allowed =
    taps.length > 0 ? `a tap of supply.path: ${taps.join(' or ')}` : 'nothing: no element of supply.path has a tap'
  throw new InputError({ field: 'board', value, allowed, hint })
}

/** What the cold makes of the cells' resistance is stated over all of the air in the case: nothing is guessed beyond it. */
export function refuseAir({ supply: { source }, ambientCelsius }: ReadFields): void {
  if (source.kind !== 'cell') return
  const { x } = source.temperatureFactor
  const [coldest, hottest] = [x[0]!, x[x.length - 1]!]
  for (const end of ['from', 'to'] as const) {
    const value = ambientCelsius[end]
    if (value >= coldest && value <= hottest) continue
    const allowed = `from ${coldest} to ${hottest} degC, where supply.source.temperatureFactor has points`
    throw new InputError({ field: `ambientCelsius.${end}`, value, unit: 'degC', allowed })
  }
}

/** A forward voltage behind the board would be taken for a resistance. */
export function refuseDiode({ supply, board }: ReadFields): void {
  for (const { name, drop } of behindBoard(supply.path ?? [], board)) {
    if (drop.upper === 0) continue
    const hint = 'Put the diode before the board'
    throw new InputError({
      field: `supply.path ${name} drop`,
      value: drop.upper,
      unit: 'V',
      allowed: '0 V behind the board',
      hint,
    })
  }
}

/** The load hangs on one end of the switch and on the other rail: a P-channel switch leaves it at ground, an N-channel one at the rail. */
export function refuseTopology({ divider, mosfet }: ReadFields): void {
  const { topology = 'load at ground', excitation = 'rail' } = divider
  const { channel } = mosfet.transistor
  const allowed = channel === 'P' ? 'load at ground' : 'load at rail'
  if (topology !== allowed) {
    const hint = `mosfet.transistor.channel is "${channel}": the switch is between load and ${channel === 'P' ? 'rail' : 'ground'}`
    throw new InputError({ field: 'divider.topology', value: topology, allowed: `"${allowed}"`, hint })
  }
  if (channel === 'N' && excitation !== 'rail') {
    const hint = 'The load is connected to the main rail, which drives the test current'
    throw new InputError({
      field: 'divider.excitation',
      value: excitation,
      allowed: '"rail" for a load at the rail',
      hint,
    })
  }
}

/** A coefficient whose straight line leads to no resistance, or less, at a temperature that the load has. */
export function refuseCoefficient({ load, ambientCelsius }: ReadFields): void {
  const { lower, upper } = load.temperatureCoefficient
  for (const celsius of [ambientCelsius.from, load.workingCelsius]) {
    const value = celsius < 20 ? upper : lower
    if (1 + value * (celsius - 20) > 0) continue
    const [than, most] = [celsius < 20 ? 'less' : 'more', 1 / (20 - celsius)]
    const hint = `At ${celsius} degC the resistance would fall to 0 ohm or below`
    const allowed = `${than} than ${Number(most.toPrecision(3))} 1/K`
    throw new InputError({ field: 'load.temperatureCoefficient', value, unit: '1/K', allowed, hint })
  }
}

/** A monitor reads its rail against a reference; without one it reads nothing, nor of a rail that no code of its converter tells. */
export function refuseMonitor({ monitor, controller, divider, rails, lives }: ReadFields): void {
  if (monitor === undefined) return
  const { reference: against } = divider.converter
  if (monitor.divider === undefined && typeof against === 'object' && against.kind === 'absolute') {
    const hint =
      'divider.converter.reference is absolute: its code of the internal reference stays the same as the cells empty'
    const field = 'monitor.divider'
    throw new InputError({
      field,
      value: undefined,
      allowed: 'a divider, through which the converter reads the rail',
      hint,
    })
  }
  if (controller.internalReference !== undefined) return
  const allowed = 'a reference, against which the monitor reads the rail'
  const own = rails?.find(({ name }) => name === lives.converter)?.through
  const hint =
    own?.kind === 'regulator'
      ? `Where the firmware trusts the regulator of ${lives.converter} instead, state that one's voltage with its tolerance`
      : ''
  throw new InputError({ field: 'controller.internalReference', value: undefined, allowed, hint })
}

/** What is asked of bursts needs some, and no watchdog ends them. */
export function refuseBursts({ bursts, requirements }: ReadFields): void {
  const { bursts: value } = requirements
  if (value !== undefined && bursts === undefined)
    throw new InputError({ field: 'requirements.bursts', value, allowed: 'nothing without bursts' })
  if (bursts?.watchdog === undefined || bursts.watchdog >= bursts.time) return
  const allowed = `at least bursts.time, ${bursts.time} s`
  throw new InputError({ field: 'bursts.watchdog', value: bursts.watchdog, unit: 's', allowed })
}

/** The supply of a drive is said once: by its rail, or in its own part. */
function refuseDriveRail(design: ReadFields): void {
  const value = design.lives.drive
  if (value === undefined) return
  const { drive, transistor } = design.mosfet
  const refuse = (allowed: string): never => {
    throw new InputError({ field: 'lives.drive', value, allowed })
  }
  if (drive.kind === 'pin' || drive.kind === 'follower')
    refuse(`nothing with mosfet.drive.kind "${drive.kind}": its level is the rail of lives.controller`)
  if (transistor.channel === 'P' && value !== mainRail)
    refuse(`"${mainRail}": the source of a P-channel switch is on that rail`)
  if (drive.supply !== undefined && drive.supply !== 'rail') refuse('nothing where mosfet.drive.supply states it')
}

/** The level of a pin, and so of what follows it, is the rail of the controller. */
export function refuseDrive(design: ReadFields): void {
  refuseDriveRail(design)
  const { drive, transistor } = design.mosfet
  if (drive.kind !== 'pin' && drive.kind !== 'follower') return
  const name = railOf(design, 'controller')
  if (drive.supply !== undefined && (drive.supply !== 'rail' || name !== mainRail)) {
    const allowed = `nothing with drive.kind "${drive.kind}": its level is the rail of lives.controller, ${name}`
    throw new InputError({ field: 'mosfet.drive.supply', value: drive.supply, allowed })
  }
  if (drive.kind === 'follower' && transistor.channel === 'P' && name !== mainRail) {
    const allowed = `"inverting transistor" or "driver" with lives.controller "${name}": its base gets no higher than that rail`
    throw new InputError({ field: 'mosfet.drive.kind', value: drive.kind, allowed })
  }
}

/** A pin doesn't come above the rail of its controller, here on full cells. */
export function refuseHighLevel(design: ReadFields, rails: Rails): void {
  const { drive } = design.mosfet
  if (drive.kind !== 'pin' && drive.kind !== 'inverting transistor') return
  if (drive.highLevel === undefined) return
  const field = 'mosfet.drive.highLevel'
  const { lower: value } = readSpread(drive.highLevel, { field, unit: 'V' })
  const name = railOf(design, 'controller')
  const most = rails[name]!.rest.upper
  if (value <= most) return
  const allowed = `at most the rail of lives.controller, ${name}: ${format(most, 'V', { digits: 3 })}`
  throw new InputError({ field, value, unit: 'V', allowed })
}
