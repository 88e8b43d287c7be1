import { readFile, stat } from 'node:fs/promises'
import { basename } from 'node:path'
import type { FarmContent, Fault } from '../../../geo/exchange/archive.ts'
import type { Driver, How } from '../../../geo/exchange/driver.ts'
import { DRIVERS, driverFor, driverForFile, farmNameOf } from '../../../geo/exchange/drivers.ts'
import { planFound } from '../../../geo/exchange/layers/readFound.ts'
import { loadReading } from '../../../geo/exchange/loadReading.ts'
import { soundPart } from '../../../geo/exchange/soundPart.ts'
import { type Ignored, ignoredText, tellIgnored } from '../../../geo/exchange/tellIgnored.ts'
import { writeArchive } from '../../../geo/exchange/writeArchive.ts'
import { noPause } from '../../../geo/store/pace.ts'
import { openNodeDatabase } from '../../../geo/store/template/nodeEngine.ts'
import { Faulty, faultLine, readArchiveAt } from '../archive.ts'
import { argumentsOf, namedOperands } from '../arguments.ts'
import type { Command } from '../command.ts'
import { packShapefile } from '../packShapefile.ts'
import { whyNoFolder, writeFolder } from '../writeFolder.ts'
import { writeWhole } from '../writeWhole.ts'
import { WrongUse } from '../wrongUse.ts'

const ENDINGS = DRIVERS.flatMap(({ endings }) => endings.slice(0, 1)).join(' ')

export const convert: Command = {
  usage: 'convert IN OUT [--crs EPSG:CODE] [--replace]',
  does: `an archive folder and files ending in ${ENDINGS} into one another (with --replace over what OUT holds)`,
  async run(args, { out, error }) {
    const { operands, values } = argumentsOf(args, { crs: 'value', replace: 'switch' })
    const [from, to] = namedOperands(operands, ['IN', 'OUT'])
    const grid = typeof values.crs === 'string' ? values.crs : null
    const replace = values.replace === true
    const target = await targetOf(to, replace)
    const { content, notes, ignored } = await bringIn(from, grid)
    for (const one of ignored) error(`${ignoredText(one)}\n`)
    for (const note of notes) error(`${faultLine(note)}\n`)
    for (const note of await giveOut(to, target, content, replace)) error(`${faultLine(note)}\n`)
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

/** A farm brought in: what was left out or assumed, and files of its archive that are not read. */
interface BroughtIn {
  readonly content: FarmContent
  readonly notes: readonly Fault[]
  readonly ignored: readonly Ignored[]
}

async function bringIn(path: string, grid: string | null): Promise<BroughtIn> {
  const there = await stat(path).catch(() => null)
  if (!there?.isFile()) return soundArchive(path)
  const isBare = /\.shp$/i.test(path)
  const bytes = isBare ? await packShapefile(path) : await readFile(path)
  const driver = isBare ? driverFor('.shz') : await driverForFile(path, bytes)
  return driver?.look ? foreignFarm(driver.look, bytes, howFor(path, grid)) : soundArchive(path)
}

/** A farm of what a file of another program holds, as far as it passes every check; the rest is noted. */
async function foreignFarm(look: NonNullable<Driver['look']>, bytes: Uint8Array, how: How): Promise<BroughtIn> {
  const found = await look(bytes, how)
  if (found.layers.length === 0) throw new Faulty([...found.notes, nothingIn(how)])
  const { reading, notes, inTheirFile } = planFound(found, farmNameOf(how.fileName))
  const db = await openNodeDatabase()
  try {
    const { loaded, faults, leftOut } = await loadReading(db, reading, { partial: true })
    const told = new Set(faults.map(faultLine))
    const all = [...faults, ...leftOut.filter((fault) => !told.has(faultLine(fault)))]
    if (!loaded || !reading.content) throw new Faulty(all)
    const { records } = soundPart(reading.drafts, reading.unreadable)
    if (records.size === 0) throw new Faulty([...found.notes, ...notes, ...inTheirFile(all), nothingIn(how)])
    return {
      content: { ...reading.content, records },
      notes: [...found.notes, ...notes, ...inTheirFile(all)],
      ignored: [],
    }
  } finally {
    await db.close()
  }
}

const nothingIn = ({ fileName }: How): Fault => ({
  file: fileName,
  record: '',
  field: '',
  reason: 'holds nothing that can be kept, so nothing is written',
})

/** The archive's content once it has passed every check, those of the farm's plane among them. */
async function soundArchive(path: string): Promise<BroughtIn> {
  const reading = await readArchiveAt(path)
  const db = await openNodeDatabase()
  try {
    const loading = await loadReading(db, reading, { partial: false })
    if (!loading.loaded || !reading.content) throw new Faulty(loading.faults)
    return { content: reading.content, notes: [], ignored: tellIgnored(reading) }
  } finally {
    await db.close()
  }
}

/**
 * What OUT is to be: a file of a format, or an archive folder. Throws `WrongUse` where it can't be that, and where
 * something stands there that is not to be replaced.
 */
async function targetOf(path: string, replace: boolean): Promise<Driver | 'folder'> {
  const there = await stat(path).catch(() => null)
  const driver = driverFor(path)
  if (!driver) {
    if (/\.shp$/i.test(path)) throw new WrongUse(`${path}: shapefiles are written zipped: end the name in .shp.zip`)
    if (/\.\w{1,8}$/.test(path) && !there?.isDirectory())
      throw new WrongUse(`${path}: no format is known by that ending`)
    const refused = await whyNoFolder(path, replace)
    if (refused) throw new WrongUse(refused)
    return 'folder'
  }
  if (there?.isDirectory()) throw new WrongUse(`${path} is a folder`)
  if (there && !replace) throw new WrongUse(`${path} is there already, and --replace would write over it`)
  return driver
}

async function giveOut(
  path: string,
  target: Driver | 'folder',
  content: FarmContent,
  replace: boolean,
): Promise<readonly Fault[]> {
  if (target === 'folder') {
    const refused = await writeFolder(path, writeArchive(content), { replace })
    if (refused) throw new WrongUse(refused)
    return []
  }
  const { bytes, notes } = await target.write(content, howFor(path, null))
  await writeWhole(path, bytes)
  return notes
}
