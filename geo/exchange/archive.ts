import type { Farm } from '../model/farm.ts'
import type { AnyRecord, Kind } from '../model/kind.ts'
import { KINDS } from '../model/kinds.ts'
import type { LonLat } from '../plane/lonLat.ts'

export const FORMAT = 'selion-farm'
export const VERSION = 1
export const FARM_FILE = 'farm.json'
export const PHOTO_FOLDER = 'photos/'

/** An archive as a folder or a zip comes: path within it (parted by `/`) to bytes. */
export type ArchiveFiles = ReadonlyMap<string, Uint8Array>

/** What is wrong in an archive: file, record (`line 7 (k3)`, `feature 2 (b1)`, empty for the whole file), field, reason. */
export interface Fault {
  readonly file: string
  readonly record: string
  readonly field: string
  readonly reason: string
}

/** An archive's files as they were opened from a folder or a zip. */
export interface OpenedArchive {
  readonly files: ArchiveFiles
  /** Why some files, or all, could not be opened. */
  readonly faults: readonly Fault[]
  /** Files, and folders (ending in `/`), that the format does not know: not opened. */
  readonly ignored: readonly string[]
}

/** A whole farm in memory. Longitudes of every geometry lie within 180° of the origin, so nothing is torn at ±180. */
export interface FarmContent {
  readonly farm: Farm
  /** Where the plane touches the earth: as the farm says, else the middle of its fields; null where nothing has a place. */
  readonly origin: LonLat | null
  /** Records by the name of their kind; a kind without records may be absent. */
  readonly records: ReadonlyMap<string, readonly AnyRecord[]>
  /** Files of the photos folder by their name. */
  readonly photos: ReadonlyMap<string, Uint8Array>
}

/** A record as far as its file could be read. */
export interface Draft {
  readonly kind: Kind
  /** How a person finds it in its file. */
  readonly where: string
  /** `id` is empty where the file gives none; what could not be read is null. */
  record: AnyRecord
  /** Fields with a fault of their own; rules that rest on them are not looked at. */
  unread: ReadonlySet<string>
  /** The first reason why the record can't be loaded, or null. */
  fault: Fault | null
}

/** What reading an archive gave. */
export interface Reading {
  /** All that is sound and refers only to what is sound; null where `farm.json` itself can't be used. */
  readonly content: FarmContent | null
  readonly faults: readonly Fault[]
  /** All that `content` lacks, with the reason: `lost`, and one for every record of those that could be told apart. */
  readonly leftOut: readonly Fault[]
  /** One for every file, or stretch of lines of one, whose records can't be told apart. */
  readonly lost: readonly Fault[]
  /** How many records each file holds, sound or not. */
  readonly counts: Readonly<Record<string, number>>
  /** Files that the format does not know. */
  readonly ignored: readonly string[]
  /** Everything that was read, for the checks that are made in the farm's plane. */
  readonly drafts: readonly Draft[]
  readonly origin: LonLat | null
  /** Kinds whose whole file could not be read. */
  readonly unreadable: ReadonlySet<string>
}

const NO_FIELDS: ReadonlySet<string> = new Set()

/** A record of a kind of which nothing is known yet but where its file has it. */
export function blankDraft(kind: Kind, where: string, id: string): Draft {
  const record: AnyRecord = { ...blankOf(kind), id, extra: {} }
  return { kind, where, record, unread: NO_FIELDS, fault: null }
}

const blanks = new WeakMap<Kind, Readonly<Record<string, null>>>()

function blankOf(kind: Kind): Readonly<Record<string, null>> {
  const known = blanks.get(kind)
  if (known) return known
  const blank = Object.fromEntries(Object.keys(kind.fields).map((name) => [name, null]))
  blanks.set(kind, blank)
  return blank
}

/** Files of the format in the order in which they are listed and written. */
export const FILES: readonly string[] = [FARM_FILE, ...KINDS.map((kind) => kind.file)]

/** True for a name that can stand in the photos folder: one plain segment, not hidden. */
export function isPlainName(name: string): boolean {
  return /^[^./\\:][^/\\:]*$/.test(name) && !/[\p{Cc}]/u.test(name) && name.length <= 200
}

/** True for the path of a file that an archive may have, by whatever case those outside the photos folder are written in. */
export function isOfArchive(path: string): boolean {
  if (path.startsWith(PHOTO_FOLDER)) return isPlainName(path.slice(PHOTO_FOLDER.length))
  return FILES.includes(path.toLowerCase())
}

/** The one folder, ending in `/`, that all paths of an archive lie in; empty where there is none. */
export function topFolderOf(paths: readonly string[]): string {
  const [first] = paths
  if (first === undefined || paths.includes(FARM_FILE)) return ''
  const folder = first.slice(0, first.indexOf('/') + 1)
  return folder !== PHOTO_FOLDER && paths.every((path) => path.startsWith(folder)) ? folder : ''
}
