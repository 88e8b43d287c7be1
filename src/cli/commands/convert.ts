import { readFile, stat, writeFile } from 'node:fs/promises'
import { basename } from 'node:path'
import type { FarmContent, Fault } from '../../../geo/exchange/archive.ts'
import type { Driver, How } from '../../../geo/exchange/driver.ts'
import { DRIVERS, driverFor, driverForFile, farmNameOf } from '../../../geo/exchange/drivers.ts'
import { planFound } from '../../../geo/exchange/layers/readFound.ts'
import { loadReading } from '../../../geo/exchange/loadReading.ts'
import { soundPart } from '../../../geo/exchange/soundPart.ts'
import { writeArchive } from '../../../geo/exchange/writeArchive.ts'
import { noPause } from '../../../geo/store/pace.ts'
import { openNodeDatabase } from '../../../geo/store/template/nodeEngine.ts'
import { Faulty, faultLine, readArchiveAt } from '../archive.ts'
import { argumentsOf, namedOperands } from '../arguments.ts'
import type { Command } from '../command.ts'
import { writeFolder } from '../folder.ts'
import { packShapefile } from '../packShapefile.ts'
import { WrongUse } from '../wrongUse.ts'

const ENDINGS = DRIVERS.flatMap(({ endings }) => endings.slice(0, 1)).join(' ')

export const convert: Command = {
  usage: 'convert IN OUT [--crs EPSG:CODE]',
  does: `an archive folder and files ending in ${ENDINGS} into one another`,
  async run(args, { out, error }) {
    const { operands, values } = argumentsOf(args, { crs: 'value' })
    const [from, to] = namedOperands(operands, ['IN', 'OUT'])
    const grid = typeof values.crs === 'string' ? values.crs : null
    const target = await targetOf(to)
    const { content, notes } = await bringIn(from, grid)
    for (const note of notes) error(`${faultLine(note)}\n`)
    for (const note of await giveOut(to, target, content)) error(`${faultLine(note)}\n`)
    out(`${from} is in ${to} now.\n`)
    return 0
  },
}

const howFor = (path: string, grid: string | null): How => ({
  fileName: basename(path),
  grid,
  columns: null,
  pace: noPause,
  sqliteUrl: null,
})

async function bringIn(path: string, grid: string | null): Promise<{ content: FarmContent; notes: readonly Fault[] }> {
  const there = await stat(path).catch(() => null)
  if (!there?.isFile()) return { content: await soundArchive(path), notes: [] }
  const isBare = /\.shp$/i.test(path)
  const bytes = isBare ? await packShapefile(path) : await readFile(path)
  const driver = isBare ? driverFor('.shz') : await driverForFile(path, bytes)
  return driver?.look
    ? foreignFarm(driver.look, bytes, howFor(path, grid))
    : { content: await soundArchive(path), notes: [] }
}

/** A farm of what a file of another program holds, as far as it passes every check; the rest is noted. */
async function foreignFarm(
  look: NonNullable<Driver['look']>,
  bytes: Uint8Array,
  how: How,
): Promise<{ content: FarmContent; notes: readonly Fault[] }> {
  const found = await look(bytes, how)
  if (found.layers.length === 0) throw new Faulty(found.notes)
  const { reading, notes, inTheirFile } = planFound(found, farmNameOf(how.fileName))
  const db = await openNodeDatabase()
  try {
    const { loaded, faults, leftOut } = await loadReading(db, reading, { partial: true })
    const told = new Set(faults.map(faultLine))
    const all = [...faults, ...leftOut.filter((fault) => !told.has(faultLine(fault)))]
    if (!loaded || !reading.content) throw new Faulty(all)
    const { records } = soundPart(reading.drafts, reading.unreadable)
    return { content: { ...reading.content, records }, notes: [...found.notes, ...notes, ...inTheirFile(all)] }
  } finally {
    await db.close()
  }
}

/** The archive's content once it has passed every check, those of the farm's plane among them. */
async function soundArchive(path: string): Promise<FarmContent> {
  const { reading, faults } = await readArchiveAt(path)
  if (!reading) throw new Faulty(faults)
  const db = await openNodeDatabase()
  try {
    const loading = await loadReading(db, reading, { partial: false })
    if (!loading.loaded || !reading.content) throw new Faulty(loading.faults)
    return reading.content
  } finally {
    await db.close()
  }
}

/** What OUT is to be: a file of a format, or an archive folder. */
async function targetOf(path: string): Promise<Driver | 'folder'> {
  const driver = driverFor(path)
  if (driver) return driver
  if (/\.shp$/i.test(path)) throw new WrongUse(`${path}: shapefiles are written zipped: end the name in .shp.zip`)
  if (/\.\w{1,8}$/.test(path) && !(await stat(path).catch(() => null))?.isDirectory())
    throw new WrongUse(`${path}: no format is known by that ending`)
  return 'folder'
}

async function giveOut(path: string, target: Driver | 'folder', content: FarmContent): Promise<readonly Fault[]> {
  if (target === 'folder') {
    const refused = await writeFolder(path, writeArchive(content))
    if (refused) throw new WrongUse(refused)
    return []
  }
  const { bytes, notes } = await target.write(content, howFor(path, null))
  await writeFile(path, bytes)
  return notes
}
