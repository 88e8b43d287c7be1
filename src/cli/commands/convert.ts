import { readFile, stat, writeFile } from 'node:fs/promises'
import type { FarmContent, Fault } from '../../../geo/exchange/archive.ts'
import { driverFor } from '../../../geo/exchange/drivers.ts'
import { loadReading } from '../../../geo/exchange/loadReading.ts'
import { writeArchive } from '../../../geo/exchange/writeArchive.ts'
import { openNodeDatabase } from '../../../geo/store/template/nodeEngine.ts'
import { Faulty, faultLine, readArchiveAt } from '../archive.ts'
import { argumentsOf, namedOperands } from '../arguments.ts'
import type { Command } from '../command.ts'
import { writeFolder } from '../folder.ts'
import { WrongUse } from '../wrongUse.ts'

export const convert: Command = {
  usage: 'convert IN OUT',
  does: 'archive folder, archive .zip and .geojson (fields, beds, rows, trees …) into one another',
  async run(args, { out, error }) {
    const { operands } = argumentsOf(args, {})
    const [from, to] = namedOperands(operands, ['IN', 'OUT'])
    const { content, notes } = await bringIn(from)
    for (const note of notes) error(`${faultLine(note)}\n`)
    const refused = await giveOut(to, content)
    if (refused) throw new WrongUse(refused)
    out(`${from} is in ${to} now.\n`)
    return 0
  },
}

async function bringIn(path: string): Promise<{ content: FarmContent; notes: readonly Fault[] }> {
  const there = await stat(path).catch(() => null)
  const driver = there?.isFile() ? driverFor(path) : null
  if (driver?.name === 'geojson') {
    const { content, notes } = await driver.read(await readFile(path))
    if (!content) throw new Faulty(notes)
    return { content, notes }
  }
  return { content: await soundArchive(path), notes: [] }
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

async function giveOut(path: string, content: FarmContent): Promise<string | null> {
  const driver = driverFor(path)
  if (!driver) {
    if (/\.\w{1,8}$/.test(path) && !(await stat(path).catch(() => null))?.isDirectory())
      return `${path}: no format is known by that ending`
    return writeFolder(path, writeArchive(content))
  }
  await writeFile(path, await driver.write(content))
  return null
}
