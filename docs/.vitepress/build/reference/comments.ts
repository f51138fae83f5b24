import { normalize, relative } from 'node:path'
import { Application, type Comment, type DeclarationReflection, LogLevel, ReflectionKind } from 'typedoc'
import { root } from '../sources.ts'

/** What a doc comment says, in Markdown with `{@link …}` in it. */
export interface Said {
  readonly summary: string
  readonly returns: string
  readonly throws: readonly string[]
  /** What is said of each parameter, and of each member of a type, by its name. */
  readonly parts: ReadonlyMap<string, string>
}

/**
 * The doc comments of what some entries export, as typedoc reads them.
 *
 * @param types - the entries' declarations, by their paths
 * @returns by entry, then by name
 */
export async function commentsOf(types: readonly string[]): Promise<ReadonlyMap<string, ReadonlyMap<string, Said>>> {
  const app = await Application.bootstrap({
    entryPoints: types.map((path) => normalize(path)),
    tsconfig: `${root}docs/tsconfig.reference.json`,
    readme: 'none',
    excludeExternals: false,
    sort: ['source-order'],
    disableSources: true,
    // The compiler's own errors are the build's business.
    skipErrorChecking: true,
    logLevel: LogLevel.Error,
  })
  const project = await app.convert()
  if (!project) throw new Error('typedoc reads nothing')
  const modules = project.getChildrenByKind(ReflectionKind.Module)
  return new Map(
    types.map((path) => {
      const name = relative(`${root}packages`, path).replace(/(\/index)?\.d\.ts$/, '')
      const own = modules.find((one) => one.name === name)
      if (!own) throw new Error(`typedoc has ${modules.map((one) => one.name).join(', ')}, and no ${name}`)
      return [path, new Map((own.children ?? []).map((one) => [one.name, saidOf(targetOf(one))]))]
    }),
  )
}

const targetOf = (one: DeclarationReflection): DeclarationReflection =>
  one.isReference() ? (one.getTargetReflectionDeep() as DeclarationReflection) : one

function saidOf(one: DeclarationReflection): Said {
  const literal = one.type?.type === 'reflection' ? one.type.declaration : undefined
  const signature = one.signatures?.[0] ?? literal?.signatures?.[0]
  const comment = [one.comment, signature?.comment].find((own) => own?.hasVisibleComponent())
  const parts = [...(signature?.parameters ?? []), ...(one.children ?? literal?.children ?? [])]
  return {
    summary: wordsOf(comment?.summary),
    returns: wordsOf(comment?.getTag('@returns')?.content),
    throws: (comment?.getTags('@throws') ?? []).map(({ content }) => wordsOf(content)),
    parts: new Map(
      parts.map((part) => {
        const own = part.comment ?? ('signatures' in part ? part.signatures?.[0]?.comment : undefined)
        return [part.name, wordsOf(own?.summary)]
      }),
    ),
  }
}

const wordsOf = (parts: Comment['summary'] | undefined): string =>
  (parts ?? [])
    .map((part) => (part.kind === 'inline-tag' ? `{${part.tag} ${part.text}}` : part.text))
    .join('')
    .trim()
