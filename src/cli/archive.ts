import { readFile, stat } from 'node:fs/promises'
import type { Fault, OpenedArchive, Reading } from '../../geo/exchange/archive.ts'
import { loadReading } from '../../geo/exchange/loadReading.ts'
import { readOpened } from '../../geo/exchange/readArchive.ts'
import { readArchiveZip } from '../../geo/exchange/readArchiveZip.ts'
import { type Ignored, tellIgnored } from '../../geo/exchange/tellIgnored.ts'
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

/** Every fault is listed. */
const ALL = Number.POSITIVE_INFINITY

/** Reads an archive from a folder or a zip. What can't be opened is a fault of the reading. */
export async function readArchiveAt(path: string): Promise<Reading> {
  return readOpened(await openArchive(path), ALL)
}

async function openArchive(path: string): Promise<OpenedArchive> {
  const there = await stat(path).catch(() => null)
  if (there?.isDirectory()) return readFolder(path)
  if (there) return readArchiveZip(await readFile(path), path)
  const fault = { file: path, record: '', field: '', reason: 'is not there' }
  return { files: new Map(), faults: [fault], ignored: [] }
}

/** Opens an archive as a database in memory and hands it to `work`. Throws `Faulty` where it has any fault. */
export async function withArchive<T>(path: string, work: (db: Database, reading: Reading) => Promise<T>): Promise<T> {
  const reading = await readArchiveAt(path)
  if (!reading.content) throw new Faulty(reading.faults)
  const db = await openNodeDatabase()
  try {
    const loading = await loadReading(db, reading, { partial: false, most: ALL })
    if (!loading.loaded) throw new Faulty(loading.faults)
    return await work(db, reading)
  } finally {
    await db.close()
  }
}

/** What `check` tells of an archive. */
export interface Checked {
  /** How many records each file holds. */
  readonly records: Readonly<Record<string, number>>
  /** Every fault, those seen in the farm's plane among them. */
  readonly faults: readonly Fault[]
  readonly ignored: readonly Ignored[]
}

export async function checkArchive(path: string): Promise<Checked> {
  const reading = await readArchiveAt(path)
  const { counts, faults } = reading
  const ignored = tellIgnored(reading)
  if (reading.drafts.length === 0) return { records: { ...counts }, faults, ignored }
  const db = await openNodeDatabase()
  try {
    const loading = await loadReading(db, reading, { partial: false, most: ALL })
    return { records: { ...counts }, faults: loading.faults, ignored }
  } finally {
    await db.close()
  }
}

/** A fault as one line for people. */
export function faultLine({ file, record, field, reason }: Fault): string {
  const where = [file, record, field].filter((part) => part !== '').join(', ')
  return `${where}: ${reason}`
}
