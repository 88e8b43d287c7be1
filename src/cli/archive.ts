import { readFile, stat } from 'node:fs/promises'
import type { Fault, Reading } from '../../geo/exchange/archive.ts'
import { loadReading } from '../../geo/exchange/loadReading.ts'
import { readArchive } from '../../geo/exchange/readArchive.ts'
import { readZip } from '../../geo/exchange/readZip.ts'
import type { Database } from '../../geo/store/database.ts'
import { openNodeDatabase } from '../../geo/store/template/nodeEngine.ts'
import { readFolder } from './readFolder.ts'

/** The input has faults: exit 1, each told on standard error. */
export class Faulty extends Error {
  override readonly name = 'Faulty'
  readonly faults: readonly Fault[]
  constructor(faults: readonly Fault[]) {
    super(`${faults.length} faults`)
    this.faults = faults
  }
}

/** Reads an archive from a folder or a zip. What can't even be opened comes back as faults alone. */
export async function readArchiveAt(path: string): Promise<{ reading: Reading | null; faults: readonly Fault[] }> {
  const there = await stat(path).catch(() => null)
  if (!there) return { reading: null, faults: [{ file: path, record: '', field: '', reason: 'is not there' }] }
  const { files, faults } = there.isDirectory() ? await readFolder(path) : readZip(await readFile(path))
  if (faults.length > 0 && files.size === 0) return { reading: null, faults }
  const reading = readArchive(files)
  return { reading: { ...reading, faults: [...faults, ...reading.faults] }, faults }
}

/** Opens an archive as a database in memory and hands it to `work`. Throws `Faulty` where it has any fault. */
export async function withArchive<T>(path: string, work: (db: Database, reading: Reading) => Promise<T>): Promise<T> {
  const { reading, faults } = await readArchiveAt(path)
  if (!reading) throw new Faulty(faults)
  if (!reading.content) throw new Faulty(reading.faults)
  const db = await openNodeDatabase()
  try {
    const loading = await loadReading(db, reading, { partial: false })
    if (!loading.loaded) throw new Faulty(loading.faults)
    return await work(db, reading)
  } finally {
    await db.close()
  }
}

/** Every fault of an archive, those seen in the farm's plane among them, and how many records each file holds. */
export async function checkArchive(
  path: string,
): Promise<{ records: Record<string, number>; faults: readonly Fault[] }> {
  const { reading, faults } = await readArchiveAt(path)
  if (!reading) return { records: {}, faults }
  const db = await openNodeDatabase()
  try {
    const loading = await loadReading(db, reading, { partial: false })
    return { records: { ...reading.counts }, faults: loading.faults }
  } finally {
    await db.close()
  }
}

/** A fault as one line for people. */
export function faultLine({ file, record, field, reason }: Fault): string {
  const where = [file, record, field].filter((part) => part !== '').join(', ')
  return `${where}: ${reason}`
}
