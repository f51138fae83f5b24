import { readFileSync } from 'node:fs'
import { createRequire } from 'node:module'
import { pathToFileURL } from 'node:url'
import { publint } from 'publint'

/** What is used of the types linter's answer. */
interface Resolution {
  readonly resolution?: { readonly isTypeScript: boolean; readonly isJson: boolean }
}
interface Answer {
  /** Each entry point's resolutions, by the kind of resolver. */
  readonly entrypoints: Readonly<Record<string, { readonly resolutions: Readonly<Record<string, Resolution>> }>>
  readonly problems: readonly { readonly kind: string; readonly resolutionKind?: string }[]
}
interface TypesLinter {
  readonly createPackageFromTarballData: (tarball: Uint8Array) => unknown
  readonly checkPackage: (of: unknown) => Promise<Answer>
}

/** Resolvers that don't know modules: the packages are modules only. */
const forgone = ['node10', 'node16-cjs']

/** The linter of types behind its command, which would take a process for each package. */
const typesLinter: Promise<TypesLinter> = (() => {
  const command = createRequire(import.meta.url).resolve('@arethetypeswrong/cli/package.json')
  return import(pathToFileURL(createRequire(command).resolve('@arethetypeswrong/core')).href)
})()

/** What linters of export maps say against a tarball, and the resolvers that find types by its main entry. */
export async function lintTarball(path: string): Promise<{ faults: string[]; resolvers: string[] }> {
  const tarball = readFileSync(path)
  const { messages } = await publint({ pack: { tarball: new Uint8Array(tarball).buffer }, strict: true })
  const { createPackageFromTarballData, checkPackage } = await typesLinter
  const { entrypoints, problems } = await checkPackage(createPackageFromTarballData(tarball))
  const wrong = problems.filter(({ resolutionKind }) => !forgone.includes(resolutionKind ?? ''))
  return {
    faults: [...messages, ...wrong].map((fault) => JSON.stringify(fault)),
    resolvers: Object.entries(entrypoints['.']?.resolutions ?? {})
      .filter(([kind, { resolution }]) => !forgone.includes(kind) && resolution?.isTypeScript)
      .map(([kind]) => kind),
  }
}
