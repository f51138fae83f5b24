import { readFileSync } from 'node:fs'

/** The packages that the site depends on are those that it describes. */
const { dependencies } = JSON.parse(readFileSync(new URL('package.json', import.meta.url), 'utf8'))
const packages = Object.keys(dependencies).map((name) => name.replace('@ohmward/', ''))

/** @type {Partial<import('typedoc').TypeDocOptions> & import('typedoc-plugin-markdown').PluginOptions} */
export default {
  name: 'Reference',
  entryPoints: packages.map((name) => `../packages/${name}/src/index.ts`),
  tsconfig: 'tsconfig.reference.json',
  plugin: [
    'typedoc-plugin-markdown',
    'typedoc-vitepress-theme',
    './.vitepress/build/typedoc-names.mjs',
    './.vitepress/build/typedoc-index.mjs',
  ],
  out: 'api',
  outputFileStrategy: 'modules',
  docsRoot: '.',
  readme: 'none',
  excludeInternal: true,
  excludeExternals: true,
  sort: ['source-order'],
  hideBreadcrumbs: true,
  hidePageHeader: true,
  disableSources: true,
  parametersFormat: 'table',
  interfacePropertiesFormat: 'table',
  classPropertiesFormat: 'table',
  typeDeclarationFormat: 'table',
  propertyMembersFormat: 'table',
  validation: { notExported: false, invalidLink: true, invalidPath: true, notDocumented: false },
  // The compiler's own errors are the build's business, see `pnpm build`.
  skipErrorChecking: true,
  treatWarningsAsErrors: true,
  logLevel: 'Warn',
}
