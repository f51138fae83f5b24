import { readFileSync } from 'node:fs'
import { Comment, ReflectionKind } from 'typedoc'
import { MarkdownPageEvent } from 'typedoc-plugin-markdown'

/** @param {string} name */
const descriptionOf = (name) =>
  JSON.parse(readFileSync(new URL(`../../../packages/${name}/package.json`, import.meta.url), 'utf8')).description

/** The first sentence of what a doc comment says, fit for a table. @param {import('typedoc').DeclarationReflection} verb */
function summaryOf(verb) {
  const words = Comment.combineDisplayParts(verb.signatures?.[0]?.comment?.summary)
  const [first = ''] = words.split(/(?<=\.)\s|\n\n/)
  return first.replace(/\s+/g, ' ').replaceAll('|', '\\|')
}

/** @param {import('typedoc').DeclarationReflection} module */
function sectionOf(module) {
  const verbs = module.getChildrenByKind(ReflectionKind.Function)
  return [
    `## [${module.name}](${module.name}.md)`,
    `${descriptionOf(module.name)}.`,
    ['| Function | What it does |', '| ------ | ------ |']
      .concat(
        verbs.map(
          (verb) => `| [\`${verb.name}\`](${module.name}.md#${verb.name.toLowerCase()}) | ${summaryOf(verb)} |`,
        ),
      )
      .join('\n'),
  ].join('\n\n')
}

/**
 * Makes the reference's first page say what each package is for and which functions it has; a bare list of packages
 * would help nobody who looks for one.
 *
 * @param {import('typedoc').Application} app
 */
export function load(app) {
  app.renderer.on(MarkdownPageEvent.END, (page) => {
    if (page.url !== 'index.md') return
    const { project } = page
    page.contents = [
      '# Reference',
      'Everything that the packages export, from their doc comments, a page each. Here: what each package is for, and its functions. Formulas stand with their expressions on [their own page](../formulas/index.md).',
      ...(project.children ?? []).map(sectionOf),
    ].join('\n\n')
  })
}
