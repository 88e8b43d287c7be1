import { spawnSync } from 'node:child_process'
import { existsSync } from 'node:fs'
import { resolve } from 'node:path'
import { expect, it } from 'vitest'

const ROOT = resolve(import.meta.dirname, '../..')
const CHECK = resolve(ROOT, '../shared/accept/check.mjs')
const isThere = existsSync(CHECK)
if (!isThere) console.info('The acceptance check of the command line is not beside the project: it is not run.')

// The check's answers are of GeographicLib's geodesics and, for held metres, of sampling every centimetre (X).
it.skipIf(!isThere)(
  'the command line agrees with the acceptance farm’s own answers',
  () => {
    const { status, stdout, stderr } = spawnSync(process.execPath, [CHECK], { cwd: ROOT, encoding: 'utf8' })
    expect(`${stdout}${stderr}`.trim()).toMatch(/^\d+ agree, 0 do not$/)
    expect(status).toBe(0)
  },
  120_000,
)
