import { KINDS } from '../model/kinds.ts'
import { FARM_FILE, FILES, PHOTO_FOLDER, type Reading } from './archive.ts'

/** A file that is not read since the format does not know it, and the one that its name was likely meant to be. */
export interface Ignored {
  readonly file: string
  readonly meant: string | null
}

/** The files of an archive that are not read, each with what it was likely meant to be. */
export function tellIgnored({ ignored, counts, content }: Reading): Ignored[] {
  const there = new Set(KINDS.filter(({ name }) => Object.hasOwn(counts, name)).map(({ file }) => file))
  if (content) there.add(FARM_FILE)
  return ignored.map((file) => ({ file, meant: meantName(file, there) }))
}

/** As words for people. */
export function ignoredText({ file, meant }: Ignored): string {
  const reason = 'is not read, since no file of an archive has that name'
  return `${file} ${reason}${meant === null ? '' : `; did you mean ${meant}?`}`
}

/** A name that differs from one of the format by more letters than this is another name. */
const MOST_LETTERS = 2

/**
 * The file of the format that a file's name was likely meant to be, or null: one of another ending, or of a few other
 * letters. `there`: files of the format that the archive has, which were not meant.
 */
function meantName(path: string, there: ReadonlySet<string>): string | null {
  const folder = path.slice(0, path.lastIndexOf('/') + 1)
  if (folder !== PHOTO_FOLDER && folder.toLowerCase() === PHOTO_FOLDER) return PHOTO_FOLDER + path.slice(folder.length)
  if (folder.startsWith(PHOTO_FOLDER)) return null
  const name = path.slice(folder.length).toLowerCase()
  if (name === '') return null
  const free = FILES.filter((file) => !there.has(file))
  const stem = (file: string) => file.replace(/\..*$/, '')
  const sameStem = free.find((file) => stem(file) === stem(name))
  if (sameStem) return sameStem
  const [nearest] = free
    .map((file) => ({ file, letters: lettersApart(name, file) }))
    .sort((a, b) => a.letters - b.letters)
  return nearest && nearest.letters <= MOST_LETTERS ? nearest.file : null
}

/** How many letters must be put in, taken out or changed to make one text of the other (V. Levenshtein, 1965). */
function lettersApart(a: string, b: string): number {
  let row = Array.from({ length: b.length + 1 }, (_, j) => j)
  for (let i = 1; i <= a.length; i++) {
    const next = [i]
    for (let j = 1; j <= b.length; j++)
      next.push(Math.min(row[j]! + 1, next[j - 1]! + 1, row[j - 1]! + (a[i - 1] === b[j - 1] ? 0 : 1)))
    row = next
  }
  return row[b.length]!
}
