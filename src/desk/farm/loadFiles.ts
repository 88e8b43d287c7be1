import type { ArchiveFiles, Fault } from '../../../geo/exchange/archive.ts'
import { loadReading } from '../../../geo/exchange/loadReading.ts'
import { readArchive } from '../../../geo/exchange/readArchive.ts'
import type { Shelf } from '../../../geo/keep/shelf.ts'
import type { Database } from '../../../geo/store/database.ts'
import { Refusal } from '../refusal.ts'
import type { Founded } from './foundFarm.ts'
import { writePhotoFile } from './photoFiles.ts'

/**
 * Loads the files of an archive into a new farm's database and its photos beside it. All of it, or a refusal that names
 * every fault; with `partial` what is sound, with a notice of what was left out.
 */
export async function loadFiles(
  db: Database,
  shelf: Shelf,
  folder: string,
  { files, faults, partial }: { files: ArchiveFiles; faults: readonly Fault[]; partial: boolean },
): Promise<Founded> {
  const reading = readArchive(files)
  const isFaulty = faults.length > 0 && !partial
  const {
    loaded,
    faults: found,
    leftOut,
  } = await loadReading(db, reading, { partial: partial && reading.content !== null })
  const all = [...faults, ...found]
  if (loaded === null || reading.content === null || isFaulty)
    throw new Refusal('archive', `The archive has ${all.length} ${all.length === 1 ? 'fault' : 'faults'}.`, {
      faults: all,
    })
  for (const [name, bytes] of reading.content.photos) await writePhotoFile(shelf, folder, name, bytes)
  return { name: reading.content.farm.name, notices: leftOut.length > 0 ? [noticeOf(leftOut)] : [] }
}

const SHOWN = 20

function noticeOf(leftOut: readonly Fault[]): string {
  const lines = leftOut
    .slice(0, SHOWN)
    .map(({ file, record, field, reason }) => [file, record, field, reason].filter(Boolean).join(' '))
  const more = leftOut.length > SHOWN ? `; and ${leftOut.length - SHOWN} more` : ''
  return `${leftOut.length} ${leftOut.length === 1 ? 'record was' : 'records were'} left out: ${lines.join('; ')}${more}.`
}
