import { execFileSync } from 'node:child_process'
import {
  createReadStream,
  createWriteStream,
  existsSync,
  mkdirSync,
  mkdtempSync,
  renameSync,
  rmSync,
  writeFileSync,
} from 'node:fs'
import { chmod } from 'node:fs/promises'
import { createRequire } from 'node:module'
import { tmpdir } from 'node:os'
import { dirname, join } from 'node:path'
import { pipeline } from 'node:stream/promises'
import { createBrotliDecompress } from 'node:zlib'
import { type Browser, chromium } from 'playwright-core'

const require = createRequire(import.meta.url)
/** No name leads out of this machine. */
const noOtherHost = '--host-resolver-rules=MAP * ~NOTFOUND, EXCLUDE localhost, EXCLUDE 127.0.0.1'
const systemNames = ['chromium', 'chromium-browser', 'google-chrome', 'google-chrome-stable']

/** A browser's program and the environment in which it starts. */
interface Program {
  readonly executablePath: string
  readonly env: Readonly<Record<string, string>>
}

/** Browsers of the system, the one that `CHROMIUM_PATH` names first. */
export function systemPrograms(): Program[] {
  const folders = [...(process.env['PATH'] ?? '').split(':'), '/usr/bin']
  const paths = [
    process.env['CHROMIUM_PATH'] ?? '',
    ...systemNames.flatMap((name) => folders.map((folder) => join(folder, name))),
  ]
  return [...new Set(paths)]
    .filter((path) => path !== '' && existsSync(path))
    .map((executablePath) => ({ executablePath, env: {} }))
}

/**
 * The browser that came with the npm packages, unpacked once for each version of it: the program, the libraries that a
 * bare system lacks, and fonts. Unpacked beside its place and then moved there, so that no one starts half of it.
 */
export async function packagedProgram(): Promise<Program> {
  // The package names no path but its entry, build/cjs/index.cjs.
  const home = join(dirname(require.resolve('@sparticuz/chromium')), '../..')
  const { version } = require(join(home, 'package.json')) as { version: string }
  const folder = join(tmpdir(), `ohmward-chromium-${version}-with-fonts`)
  if (!existsSync(folder)) {
    const half = mkdtempSync(`${folder}-`)
    await unpack(join(home, 'bin/chromium.br'), join(half, 'chromium'))
    await chmod(join(half, 'chromium'), 0o755)
    for (const archive of ['al2023', 'fonts', 'swiftshader']) {
      const tar = join(half, `${archive}.tar`)
      const target = archive === 'swiftshader' ? half : join(half, archive)
      await unpack(join(home, `bin/${archive}.tar.br`), tar)
      mkdirSync(target, { recursive: true })
      execFileSync('tar', ['-xf', tar, '-C', target])
      rmSync(tar)
    }
    writeFileSync(join(half, 'fonts.conf'), fontConfiguration(folder))
    try {
      renameSync(half, folder)
    } catch {
      rmSync(half, { recursive: true }) // Someone else was faster.
    }
  }
  const env = { LD_LIBRARY_PATH: join(folder, 'al2023/lib'), FONTCONFIG_FILE: join(folder, 'fonts.conf') }
  return { executablePath: join(folder, 'chromium'), env }
}

/**
 * Where the unpacked fonts are. A page with an input or a select kills a browser that finds no configuration, or one
 * that names folders which aren't there; the archive's own does.
 */
const fontConfiguration = (folder: string): string => `<?xml version="1.0"?>
<!DOCTYPE fontconfig SYSTEM "urn:fontconfig:fonts.dtd">
<fontconfig>
  <dir>${join(folder, 'fonts')}</dir>
  <cachedir>${join(folder, 'font-cache')}</cachedir>
</fontconfig>
`

const unpack = (from: string, to: string): Promise<void> =>
  pipeline(createReadStream(from), createBrotliDecompress(), createWriteStream(to))

/**
 * Starts Chromium: the system's, or else the one of the npm packages.
 *
 * @param candidates - what to try, in order
 * @throws Error with one sentence that says what to install, when neither starts
 */
export async function launch(
  candidates = [...systemPrograms().map((it) => async () => it), packagedProgram],
): Promise<Browser> {
  const reasons: string[] = []
  for (const candidate of candidates) {
    try {
      const { executablePath, env } = await candidate()
      return await chromium.launch({
        executablePath,
        args: ['--no-sandbox', '--headless', noOtherHost],
        env: { ...(process.env as Record<string, string>), ...env },
      })
    } catch (error) {
      reasons.push((error as Error).message.split('\n')[0]!)
    }
  }
  throw new Error(
    `No browser starts here: install Chromium (on Debian "apt-get install chromium"), or set CHROMIUM_PATH to one (tried: ${reasons.join('; ')}).`,
  )
}
