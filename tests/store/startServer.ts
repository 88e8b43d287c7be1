import { type ChildProcess, execFileSync, spawn } from 'node:child_process'
import { chownSync, mkdtempSync, rmSync } from 'node:fs'
import { createServer } from 'node:net'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { setTimeout as pause } from 'node:timers/promises'
import type { TestProject } from 'vitest/node'
import { openServer } from '../../geo/store/server.ts'
import { type Installed, installedServer } from './serverAtHand.ts'

/**
 * Gives the project's tests a PostgreSQL server: the one that `DATABASE_URL` names, else a private cluster in a
 * temporary folder that goes when the tests are done, else none.
 */
export default async function startServer(project: TestProject): Promise<(() => Promise<void>) | undefined> {
  const given = process.env.DATABASE_URL
  const installed = installedServer()
  if (given || !installed) {
    if (!given) console.warn('No PostgreSQL with PostGIS is at hand: the store is not tested on a server.')
    project.provide('databaseUrl', given ?? '')
    return undefined
  }
  const cluster = await startCluster(installed)
  project.provide('databaseUrl', cluster.url)
  return cluster.stop
}

/** A cluster of its own on a free port. Nothing in it is to last, so it waits for no disk. */
export async function startCluster({ programs }: Installed): Promise<{ url: string; stop: () => Promise<void> }> {
  const folder = mkdtempSync(join(tmpdir(), 'selion-server-'))
  const as = notRoot()
  if (as) chownSync(folder, as.uid, as.gid)
  const options = { ...as, cwd: folder }
  const data = join(folder, 'data')
  const settings = ['--auth=trust', '--encoding=UTF8', '--locale=C.UTF-8', '--no-sync']
  execFileSync(join(programs, 'initdb'), ['-D', data, '-U', 'postgres', ...settings], { ...options, stdio: 'pipe' })
  const port = await freePort()
  const fast = ['fsync=off', 'full_page_writes=off', 'synchronous_commit=off', 'listen_addresses=127.0.0.1']
  const server = spawn(
    join(programs, 'postgres'),
    ['-D', data, '-p', String(port), '-k', folder, ...fast.flatMap((setting) => ['-c', setting])],
    { ...options, stdio: ['ignore', 'ignore', 'pipe'] },
  )
  const log: string[] = []
  server.stderr?.on('data', (text: Buffer) => log.push(text.toString()))
  const url = `postgresql://postgres@127.0.0.1:${port}/postgres`
  await answers(url, server, log)
  return {
    url,
    stop: async () => {
      const ended = new Promise((resolve) => server.once('exit', resolve))
      server.kill('SIGINT')
      await ended
      rmSync(folder, { recursive: true, force: true })
    },
  }
}

/** PostgreSQL won't run as root; Debian's package makes a user for it. */
function notRoot(): { uid: number; gid: number } | undefined {
  if (process.getuid?.() !== 0) return undefined
  const id = (which: string) => Number(execFileSync('id', [which, 'postgres'], { encoding: 'utf8' }))
  return { uid: id('-u'), gid: id('-g') }
}

async function freePort(): Promise<number> {
  const probe = createServer()
  await new Promise<void>((resolve) => probe.listen(0, '127.0.0.1', resolve))
  const address = probe.address()
  await new Promise((resolve) => probe.close(resolve))
  if (!address || typeof address === 'string') throw new Error(`no free port: ${address}`)
  return address.port
}

async function answers(url: string, server: ChildProcess, log: readonly string[]): Promise<void> {
  for (let tries = 0; tries < 200; tries++) {
    if (server.exitCode !== null) break
    const db = await openServer(url)
    const works = await db.rows('select 1').then(
      () => true,
      () => false,
    )
    await db.close()
    if (works) return
    await pause(50)
  }
  throw new Error(`PostgreSQL did not start: ${log.join('')}`)
}
