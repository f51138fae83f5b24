import { InputError, type Read, type Spread } from '@ohmward/quantity'
import type { Drive, driveField } from './drive.js'

/** A drive that was read: numbers by symbol, with what isn't there at 0. */
export interface ReadDrive {
  readonly kind: Drive['kind']
  readonly complementary: boolean
  readonly pull: 'gate' | 'drive' | 'none'
  readonly supply: 'rail' | 'regulated'
  readonly hasHighLevel: boolean
  readonly hasResetPull: boolean
  readonly hasResetLevel: boolean
  readonly hasBasePullDown: boolean
  readonly hasBasePullUp: boolean
  readonly spreads: Readonly<Record<DriveSymbol, Spread>>
}

const driveSymbols = [
  'R_g',
  'I_pinleak',
  'R_drv',
  'R_snk',
  'V_drop',
  'V_off',
  'I_pinmax',
  'V_supmin',
  'V_BE',
  'V_CE',
  'V_BEoff',
  'R_b',
  'V_high',
  'h_FE',
  't_sto',
  'R_p',
  'P_prated',
  'V_hold',
  'V_reg',
  'R_weak',
  'V_weak',
  'R_be',
  'R_bp',
] as const
type DriveSymbol = (typeof driveSymbols)[number]

const nothing: Spread = { nominal: 0, lower: 0, upper: 0, distribution: { kind: 'exact' } }
type Known = Partial<Record<DriveSymbol, Spread | undefined>>
type FromRecord = Read<{ of: typeof driveField }>['of']

/** A drive of its record, for a transistor of this channel. @throws InputError where the two don't go together */
export function driveOf(read: FromRecord, channel: 'N' | 'P'): ReadDrive {
  const { kind, pull, supply, resetPull } = read
  const own = ownOf(read)
  const flags = {
    complementary: read.kind === 'follower' && read.complementary,
    hasHighLevel: kind !== 'inverting transistor' && own.V_high !== undefined,
    hasResetPull: resetPull !== undefined,
    hasResetLevel: own.V_weak !== undefined,
    hasBasePullDown: own.R_be !== undefined,
    hasBasePullUp: own.R_bp !== undefined,
  }
  const { diode: V_hold, regulated: V_reg } = supply === 'rail' ? {} : supply
  const spreads = spreadsOf({
    ...own,
    R_g: read.gateResistor,
    I_pinleak: read.pinLeakage,
    R_p: pull?.resistance,
    P_prated: pull?.ratedPower,
    V_hold,
    V_reg,
    R_weak: resetPull,
  })
  const drive: ReadDrive = {
    kind,
    pull: pull === undefined ? 'none' : pull.at,
    supply: V_reg === undefined ? 'rail' : 'regulated',
    ...flags,
    spreads,
  }
  together(drive, channel)
  return drive
}

/** What no field says by itself. @throws InputError */
function together({ kind, complementary, pull, supply, hasHighLevel, spreads }: ReadDrive, channel: 'N' | 'P'): void {
  if (pull === 'none' && kind === 'follower' && !complementary) {
    const allowed = 'a resistor: this drive pulls the gate one way only'
    throw new InputError({ field: 'drive.pull', value: undefined, allowed })
  }
  if (channel === 'P' && (supply === 'regulated' || spreads.V_hold.upper > 0)) {
    throw new InputError({
      field: 'drive.supply',
      value: 'a supply of its own',
      allowed: '"rail": the source of a P-channel switch is on the rail',
    })
  }
  if (channel === 'N' && hasHighLevel) {
    const hint = 'For an N-channel switch give the level as the supply of the drive'
    const value = spreads.V_high.nominal
    throw new InputError({ field: 'drive.highLevel', value, unit: 'V', allowed: 'nothing here', hint })
  }
}

/** What a kind of drive has of its own, by symbol. */
function ownOf(read: FromRecord): Known {
  switch (read.kind) {
    case 'follower':
      return { R_drv: read.resistance, V_BE: read.baseEmitter, I_pinmax: read.currentMaximum, R_be: read.basePullDown }
    case 'inverting transistor':
      return {
        V_CE: read.saturation,
        V_BE: read.baseEmitter,
        V_BEoff: read.baseOff,
        R_b: read.baseResistor,
        V_high: read.highLevel,
        h_FE: read.currentGain,
        t_sto: read.storageTime,
        R_be: read.basePullDown,
        R_bp: read.basePullUp,
        V_weak: read.resetLevel,
      }
    default:
      return {
        R_drv: read.resistance,
        R_snk: read.sinkResistance,
        V_drop: read.drop,
        V_off: read.offLevel,
        I_pinmax: read.currentMaximum,
        V_supmin: read.supplyMinimum,
        V_high: read.highLevel,
      }
  }
}

/** Every symbol, with what isn't there at 0. */
const spreadsOf = (known: Known) =>
  Object.fromEntries(driveSymbols.map((symbol) => [symbol, known[symbol] ?? nothing])) as Record<DriveSymbol, Spread>
