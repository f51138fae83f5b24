import { Converter } from 'typedoc'

/**
 * All packages are read as one program, which takes a third of the time that one program each takes. This gives each
 * its name back.
 *
 * @param {import('typedoc').Application} app
 */
export function load(app) {
  app.converter.on(Converter.EVENT_RESOLVE_BEGIN, ({ project }) => {
    for (const module of project.children ?? []) module.name = module.name.replace(/\/.*$/, '')
  })
}
