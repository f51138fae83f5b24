import { existsSync, mkdirSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs'
import { setTimeout as pause } from 'node:timers/promises'

/** Whether a process of this machine is still there. @param {number} id */
function isThere(id) {
  try {
    process.kill(id, 0)
    return true
  } catch (error) {
    return /** @type {NodeJS.ErrnoException} */ (error).code === 'EPERM'
  }
}

/** Whether the process that made a lock is gone; one that has only just been made is held. @param {string} lock */
function isAbandoned(lock) {
  try {
    if (existsSync(`${lock}/process`)) return !isThere(Number(readFileSync(`${lock}/process`, 'utf8')))
    return Date.now() - statSync(lock).mtimeMs > 10_000
  } catch {
    return false // It went while it was looked at.
  }
}

/**
 * Does a piece of work that no two processes may do at once in one place. Who comes second waits for the first, and
 * then needn't do it.
 *
 * @param {string} lock - a folder that exists while the work is done
 * @param {() => Promise<void>} work
 * @param {() => void} [onWait] - called once, where somebody else is at it
 * @returns {Promise<boolean>} whether it was done here
 * @throws Error in one sentence where the place can't be written
 */
export async function oneAtATime(lock, work, onWait) {
  let isWaiting = false
  for (;;) {
    try {
      mkdirSync(lock)
      break
    } catch (error) {
      const { code } = /** @type {NodeJS.ErrnoException} */ (error)
      if (code !== 'EEXIST') throw new Error(`Nothing can be written beside ${lock} (${code}).`)
    }
    if (isAbandoned(lock)) rmSync(lock, { recursive: true, force: true })
    else {
      if (!isWaiting) onWait?.()
      isWaiting = true
      await pause(200)
    }
  }
  try {
    if (isWaiting) return false
    writeFileSync(`${lock}/process`, String(process.pid))
    await work()
    return true
  } finally {
    rmSync(lock, { recursive: true, force: true })
  }
}
