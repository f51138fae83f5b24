import { type Design, readDesign } from '@ohmward/frontend'

/** Which variant of the circuit a design is. */
export interface Drawn {
  /** N: the switch is below the load. */
  readonly channel: 'P' | 'N'
  readonly topology: 'load at ground' | 'load at rail'
  readonly source: string
  /** What stands between the main rail and a part that lives on another one. */
  readonly between: { readonly controller: string | undefined; readonly amplifier: string | undefined }
  /** Rails behind the main one: what stands between, and who lives there. */
  readonly rails: readonly { readonly name: string; readonly through: string; readonly parts: string }[]
}

/** What a drawing must know of a design beside its levels. @throws InputError naming the first field that isn't allowed */
export function drawnOf(given: Design): Drawn {
  const { supply, rails = [], lives } = readDesign(given)
  const { source } = supply
  const parts = ['controller', 'converter', 'sensor', 'amplifier'] as const
  const between = (part: 'controller' | 'amplifier') => rails.find(({ name }) => lives[part] === name)?.through.kind
  return {
    between: { controller: between('controller'), amplifier: between('amplifier') },
    channel: given.mosfet.transistor.channel,
    topology: given.divider.topology ?? 'load at ground',
    source:
      source.kind === 'cell' ? (source.inSeries > 1 ? `${source.inSeries} cells in series` : 'cell') : source.kind,
    rails: rails.map(({ name, through }) => ({
      name,
      through: through.kind,
      parts: parts.filter((part) => lives[part] === name).join(', '),
    })),
  }
}
