import { referencePages } from '../.vitepress/build/reference/page.ts'

/** A page for each entry of a package's manifest, its content made from the declarations. */
export default {
  async paths() {
    const pages = await referencePages()
    return pages.map(({ entry, content }) => ({ params: { entry: entry.page }, content }))
  },
}
