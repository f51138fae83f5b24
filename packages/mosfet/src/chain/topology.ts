import type { ReadMosfet } from '../choice.js'

/** What the parts decide before any number: which formulas hold. */
export interface Topology {
  /** `P`: high side, source at the rail. `N`: low side, source at ground. */
  readonly channel: 'N' | 'P'
  /** A resistance, or a load that holds its current. */
  readonly load: 'resistance' | 'current'
  /** How the load behaves in an edge. */
  readonly edges: 'resistive' | 'clamped inductive'
  /** The gate drive hangs from the sagged rail, or has a regulated supply of its own. */
  readonly supply: 'rail' | 'regulated'
  /** Through what the gate charges: the drive's own resistance, or the pull-up of an inverting drive. */
  readonly charge: 'drive' | 'pull'
  /** Where the resistor sits that divides the level at the gate: at the gate, on the drive's side, nowhere. */
  readonly pull: 'gate' | 'drive' | 'none'
  /** Where the resistor sits that holds the gate while nothing drives it. */
  readonly holding: 'gate' | 'drive' | 'none'
  /** What discharges the gate: the drive, or that resistor alone. */
  readonly off: 'drive' | 'pull'
  /** In which edge a bipolar transistor limits the gate current; `base` tells whether its base has a resistor to the emitter. */
  readonly limited: 'on' | 'off' | 'neither'
  readonly base: 'shared' | 'alone'
  /** What the drive leaves on the gate when off: a fixed level, or the rail less its high level. */
  readonly offLevel: 'fixed' | 'rail less high'
  /** What the gate, or the base of an inverting transistor, hangs on while the controller resets. */
  readonly reset: 'floating gate' | 'held gate' | 'pulled gate' | 'follower' | 'base' | 'base pulled up'
  readonly resetBase: 'floating' | 'held' | 'pulled' | 'pulled by controller'
  /** How the on-resistance goes with temperature. */
  readonly law: 'linear' | 'power' | 'points'
  /** Heat for ever, or in bursts. */
  readonly heat: 'lasting' | 'bursts'
  /** Whether the data sheet states an avalanche energy that a spike could reach, and a safe operating area. */
  readonly avalanche: boolean
  readonly safeArea: boolean
  /** Whether the designer allows switching a share of the loss. */
  readonly share: boolean
}

/** Which formulas hold for a choice. */
export function topologyOf(read: ReadMosfet): Topology {
  const { transistor, drive, load, edges, bursts, wiring, openCircuit, freewheel } = read
  const { kind, complementary, pull, supply, hasHighLevel, hasBasePullDown } = drive
  const { channel, fields, avalancheEnergy, safePulses } = transistor
  const isInverter = kind === 'inverting transistor'
  const pullsUp = isInverter && channel === 'N'
  const isPassive = (isInverter && !pullsUp) || (kind === 'follower' && !complementary)
  return {
    channel,
    load: load.kind,
    edges,
    supply,
    charge: pullsUp ? 'pull' : 'drive',
    pull: pullsUp ? 'none' : pull,
    holding: pullsUp ? 'none' : pull,
    off: isPassive ? 'pull' : 'drive',
    limited: isInverter ? (pullsUp ? 'off' : 'on') : 'neither',
    base: hasBasePullDown ? 'shared' : 'alone',
    offLevel: hasHighLevel ? 'rail less high' : 'fixed',
    reset: resetOf(read),
    resetBase: resetBaseOf(drive),
    law: transistor.law.kind,
    heat: bursts === undefined ? 'lasting' : 'bursts',
    avalanche:
      avalancheEnergy !== undefined &&
      fields.drainSourceMaximum.lower > openCircuit.to + freewheel.drop.upper &&
      wiring.inductance.upper > 0,
    safeArea: safePulses !== undefined,
    share: read.switchingShare !== undefined,
  }
}

function resetBaseOf({ hasBasePullDown, hasResetPull, hasResetLevel }: ReadMosfet['drive']): Topology['resetBase'] {
  if (!hasBasePullDown) return 'floating'
  if (!hasResetPull) return 'held'
  return hasResetLevel ? 'pulled by controller' : 'pulled'
}

function resetOf({ transistor, drive }: ReadMosfet): Topology['reset'] {
  if (drive.kind === 'inverting transistor') {
    if (transistor.channel === 'P') return 'base'
    return drive.hasBasePullUp ? 'base pulled up' : 'floating gate'
  }
  if (drive.pull === 'none') return 'floating gate'
  if (drive.kind === 'follower') return 'follower'
  return drive.hasResetPull ? 'pulled gate' : 'held gate'
}
