import { createHash } from 'node:crypto'
import { readdirSync, readFileSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'

/** Kept at the first visit: everything but the reference, whose pages are kept as they are read. */
const first = (file: string): boolean => !/^(api\/|assets\/api_|sw\.js$)/.test(file)

/** Writes `sw.js`, the list of files that make the site work offline once it has been loaded. */
export function writeServiceWorker(outDir: string, base: string): void {
  const files = readdirSync(outDir, { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile())
    .map((entry) =>
      join(entry.parentPath, entry.name)
        .slice(outDir.length + 1)
        .replaceAll('\\', '/'),
    )
    .sort()
  const hash = createHash('sha256')
  for (const file of files) hash.update(file).update(readFileSync(join(outDir, file)))
  const kept = files.filter(first).map((file) => base + file.replace(/(^|\/)index\.html$/, '$1'))
  const text = readFileSync(new URL('./service-worker.template.js', import.meta.url), 'utf8')
  const version = `ohmward ${base} ${hash.digest('hex').slice(0, 12)}`
  writeFileSync(
    join(outDir, 'sw.js'),
    text.replace("'VERSION'", JSON.stringify(version)).replace("['FILES']", JSON.stringify(kept)),
  )
}
