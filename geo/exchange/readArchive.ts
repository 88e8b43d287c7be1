import { KINDS } from '../model/kinds.ts'
import { photos as photoKind } from '../model/photos.ts'
import {
  type ArchiveFiles,
  type Draft,
  FARM_FILE,
  type Fault,
  FILES,
  isOfArchive,
  isPlainName,
  type OpenedArchive,
  PHOTO_FOLDER,
  type Reading,
  topFolderOf,
} from './archive.ts'
import { checkPicks } from './checkPicks.ts'
import { checkRecords } from './checkRecords.ts'
import { checkReferences, indexDrafts } from './checkReferences.ts'
import { byFile, type Faults, gatherFaults, MOST_LISTED } from './faults.ts'
import { placeDrafts, tellOriginOff } from './placeDrafts.ts'
import { readFarm } from './readFarm.ts'
import { readFeatureFile } from './readFeatures.ts'
import { readPhotos } from './readPhotos.ts'
import { readTable } from './readTable.ts'
import { soundPart } from './soundPart.ts'

/**
 * Reads an archive that was opened, with the faults of opening it before those of its files. Where nothing could be
 * opened, those are all.
 */
export function readOpened({ files, faults, ignored }: OpenedArchive, most = MOST_LISTED): Reading {
  if (files.size === 0 && faults.length > 0) return nothingRead([...faults], [...ignored])
  const reading = readArchive(files, most)
  return {
    ...reading,
    faults: [...faults, ...reading.faults],
    leftOut: [...faults, ...reading.leftOut],
    lost: [...faults, ...reading.lost],
    ignored: [...ignored, ...reading.ignored],
  }
}

/**
 * Reads a whole archive, from a folder or a zip; lists at most `most` faults of a file. Every fault that can be seen without a database is told; those of the
 * farm's plane (crossing outlines, beds outside their field, rows outside their bed) are told by `loadReading`.
 */
export function readArchive(given: ArchiveFiles, most = MOST_LISTED): Reading {
  const faults = gatherFaults(most)
  const files = withoutTopFolder(given)
  const ignored = sortOut(files, faults)
  const farm = readFarm(files.get(FARM_FILE), faults)
  if (farm === 'foreign') return nothingRead(faults.all(), ignored)
  const drafts: Draft[] = []
  const unreadable = new Set<string>()
  const counts: Record<string, number> = {}
  for (const kind of KINDS) {
    const bytes = files.get(kind.file)
    if (!bytes) continue
    const read =
      kind === photoKind
        ? readPhotos(bytes, files, faults)
        : kind.shapes
          ? readFeatureFile(kind, bytes, faults)
          : readTable(kind, bytes, faults)
    if (!read) unreadable.add(kind.name)
    counts[kind.name] = read?.length ?? 0
    for (const draft of read ?? []) drafts.push(draft)
  }
  const farmRecord = farm === 'faulty' || tellOriginOff(drafts, farm.farm, faults) ? null : farm.farm
  return { ...judge(drafts, farmRecord, unreadable, photosOf(files), faults), counts, ignored }
}

/** Places drafts, looks at them together, and parts the sound from the rest. */
export function judge(
  drafts: readonly Draft[],
  farm: Parameters<typeof placeDrafts>[1],
  unreadable: ReadonlySet<string>,
  photos: ReadonlyMap<string, Uint8Array>,
  faults: Faults,
): Omit<Reading, 'counts' | 'ignored'> {
  const origin = placeDrafts(drafts, farm, faults)
  const index = indexDrafts(drafts, faults)
  checkReferences(drafts, index, unreadable, faults)
  checkRecords(drafts, index, faults)
  checkPicks(drafts, index, unreadable, faults)
  const { records, leftOut } = soundPart(drafts, unreadable)
  const content = farm ? { farm, origin, records, photos } : null
  const lost = byFile(faults.lost())
  return {
    content,
    faults: faults.all(),
    leftOut: byFile([...lost, ...leftOut]),
    lost,
    drafts,
    origin,
    unreadable,
  }
}

function nothingRead(faults: Fault[], ignored: string[]): Reading {
  return {
    content: null,
    faults,
    leftOut: [],
    lost: [],
    counts: {},
    ignored,
    drafts: [],
    origin: null,
    unreadable: new Set(),
  }
}

/** The files without the one folder that they may all lie in. */
function withoutTopFolder(files: ArchiveFiles): ArchiveFiles {
  const top = topFolderOf([...files.keys()])
  return top === '' ? files : new Map([...files].map(([path, bytes]) => [path.slice(top.length), bytes]))
}

/** The files that the format does not know; one that is named as one of its own but for the case is a fault. */
function sortOut(files: ArchiveFiles, faults: Faults): string[] {
  const ignored: string[] = []
  for (const path of files.keys()) {
    if (!isOfArchive(path)) ignored.push(path)
    else if (!path.startsWith(PHOTO_FOLDER) && !FILES.includes(path))
      faults.ofFile(path, `is not read: its name must be written ${path.toLowerCase()}`)
  }
  return ignored
}

function photosOf(files: ArchiveFiles): Map<string, Uint8Array> {
  const photos = new Map<string, Uint8Array>()
  for (const [path, bytes] of files) {
    const name = path.startsWith(PHOTO_FOLDER) ? path.slice(PHOTO_FOLDER.length) : ''
    if (isPlainName(name)) photos.set(name, bytes)
  }
  return photos
}
