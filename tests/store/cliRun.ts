import { spawn } from 'node:child_process'
import { mkdir, mkdtemp, readdir, readFile, rm, writeFile } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { dirname, join, resolve } from 'node:path'
import { afterAll, beforeAll } from 'vitest'
import type { ArchiveFiles } from '../../geo/exchange/archive.ts'
import { run } from '../../src/cli/run.ts'

const ROOT = resolve(import.meta.dirname, '../..')

/** What a run of the command line came to. */
export interface Ran {
  readonly code: number | null
  readonly out: string
  readonly error: string
}

/** Runs `selion` with these words here, without a program of its own. */
export async function selion(...words: readonly string[]): Promise<Ran> {
  const said = { out: '', error: '' }
  const code = await run(words, {
    out: (text) => {
      said.out += text
    },
    error: (text) => {
      said.error += text
    },
    now: new Date(),
  })
  return { code, ...said }
}

/** Runs `selion` as a person does: through npm, as a program of its own, from the project's root. */
export function selionByNpm(...words: readonly string[]): Promise<Ran> {
  return new Promise((resolve, reject) => {
    const command = ['run', '--silent', 'selion', '--', ...words]
    const child = spawn('npm', command, { cwd: ROOT, stdio: ['ignore', 'pipe', 'pipe'] })
    const [out, error]: [Buffer[], Buffer[]] = [[], []]
    child.stdout.on('data', (bytes: Buffer) => out.push(bytes))
    child.stderr.on('data', (bytes: Buffer) => error.push(bytes))
    child.once('error', reject)
    child.once('close', (code) =>
      resolve({ code, out: Buffer.concat(out).toString(), error: Buffer.concat(error).toString() }),
    )
  })
}

/** Runs `selion` as a program of its own, of whose standard output only the first line is read, as `head -1` does. */
export function untilLine(...words: readonly string[]): Promise<Ran> {
  return new Promise((resolve, reject) => {
    const command = ['--import', 'tsx', 'src/cli/main.ts', ...words]
    const child = spawn(process.execPath, command, { cwd: ROOT, stdio: ['ignore', 'pipe', 'pipe'] })
    let [out, error] = ['', '']
    child.stdout.on('data', (bytes: Buffer) => {
      out += bytes.toString()
      if (out.includes('\n')) child.stdout.destroy()
    })
    child.stderr.on('data', (bytes: Buffer) => {
      error += bytes.toString()
    })
    child.once('error', reject)
    child.once('close', (code) => resolve({ code, out: out.slice(0, out.indexOf('\n')), error }))
  })
}

/** The one JSON value that a run printed; throws where it ended badly or said anything on standard error. */
export async function jsonOf<T>(running: Promise<Ran>): Promise<T> {
  const { code, out, error } = await running
  if (code !== 0 || error !== '') throw new Error(`exit ${code}: ${error}`)
  return JSON.parse(out) as T
}

/** A folder that goes when the file's tests are done; gives paths within it. */
export function useFolder(): (name: string) => string {
  let folder = ''
  beforeAll(async () => {
    folder = await mkdtemp(join(tmpdir(), 'selion-cli-'))
  })
  afterAll(() => rm(folder, { recursive: true, force: true }))
  return (name) => join(folder, name)
}

export async function writeFiles(folder: string, files: ArchiveFiles): Promise<string> {
  for (const [name, bytes] of files) {
    const path = join(folder, name)
    await mkdir(dirname(path), { recursive: true })
    await writeFile(path, bytes)
  }
  return folder
}

/** Every file in a folder, by its path within it. */
export async function filesIn(folder: string): Promise<Map<string, Buffer>> {
  const entries = await readdir(folder, { recursive: true, withFileTypes: true })
  const paths = entries.filter((entry) => entry.isFile()).map((entry) => join(entry.parentPath, entry.name))
  const files = paths.sort().map(async (path) => [path.slice(folder.length + 1), await readFile(path)] as const)
  return new Map(await Promise.all(files))
}
