import { readdir, readFile } from 'node:fs/promises'
import type { Migration } from '../migrate.ts'

const FOLDER = new URL('../migrations/', import.meta.url)

/** The migrations of this version, in their order, from disk. Node only. */
export async function readMigrations(): Promise<Migration[]> {
  const names = (await readdir(FOLDER)).filter((name) => /^\d{4}_\w+\.sql$/.test(name)).sort()
  return Promise.all(names.map(async (name) => ({ name, text: await readFile(new URL(name, FOLDER), 'utf8') })))
}
