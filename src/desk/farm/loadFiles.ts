import type { Fault, OpenedArchive } from '../../../geo/exchange/archive.ts'
import { loadReading } from '../../../geo/exchange/loadReading.ts'
import { readOpened } from '../../../geo/exchange/readArchive.ts'
import { ignoredText, tellIgnored } from '../../../geo/exchange/tellIgnored.ts'
import type { Shelf } from '../../../geo/keep/shelf.ts'
import type { Database } from '../../../geo/store/database.ts'
import { Refusal } from '../refusal.ts'
import type { Founded } from './foundFarm.ts'
import { writePhotoFile } from './photoFiles.ts'

/**
 * Loads the files of an archive into a new farm's database and its photos beside it. All of it, or a refusal that names
 * every fault; with `partial` what is sound, with a notice of what was left out. Files that are not read are told too.
 */
export async function loadFiles(
  db: Database,
  shelf: Shelf,
  folder: string,
  opened: OpenedArchive,
  { partial }: { readonly partial: boolean },
): Promise<Founded> {
  const reading = readOpened(opened)
  const { loaded, faults, leftOut } = await loadReading(db, reading, { partial: partial && reading.content !== null })
  if (loaded === null || reading.content === null)
    throw new Refusal('archive', `The archive has ${faults.length} ${faults.length === 1 ? 'fault' : 'faults'}.`, {
      faults: [...faults],
    })
  for (const [name, bytes] of reading.content.photos) await writePhotoFile(shelf, folder, name, bytes)
  const ignored = tellIgnored(reading)
  const lost = new Set(reading.lost)
  const records = leftOut.filter((one) => !lost.has(one))
  return {
    name: reading.content.farm.name,
    notices: [
      ...(lost.size > 0 ? [`Not read: ${inAll(reading.lost.map(faultText))}.`] : []),
      ...(records.length > 0 ? [noticeOf(records)] : []),
      ...(ignored.length > 0 ? [`${inAll(ignored.map(ignoredText))}.`] : []),
    ],
  }
}

const SHOWN = 20

function noticeOf(records: readonly Fault[]): string {
  const many = records.length === 1 ? '1 record was' : `${records.length} records were`
  return `${many} left out: ${inAll(records.map(faultText))}.`
}

const faultText = ({ file, record, field, reason }: Fault): string =>
  [file, record, field, reason].filter(Boolean).join(' ')

/** The first of many texts in one, and how many more there are. */
function inAll(texts: readonly string[]): string {
  const more = texts.length > SHOWN ? `; and ${texts.length - SHOWN} more` : ''
  return `${texts.slice(0, SHOWN).join('; ')}${more}`
}
