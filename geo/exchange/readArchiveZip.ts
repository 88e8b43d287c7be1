import { isOfArchive, type OpenedArchive, topFolderOf } from './archive.ts'
import { isHidden, readZip } from './readZip.ts'

/**
 * Opens a zipped archive: unpacks the files of the format and those of the photos folder, and nothing else. `name`: the
 * zip's own, under which is told what is wrong with it as a whole.
 */
export function readArchiveZip(zip: Uint8Array, name: string): OpenedArchive {
  const ignored: string[] = []
  const { files, faults } = readZip(zip, (paths) => {
    const top = topFolderOf(paths.filter((path) => !isHidden(path)))
    return (path) => {
      const own = path.startsWith(top) ? path.slice(top.length) : null
      const isTaken = own !== null && isOfArchive(own)
      if (!isTaken) ignored.push(own ?? path)
      return isTaken
    }
  })
  return { files, faults: faults.map((fault) => (fault.file === '' ? { ...fault, file: name } : fault)), ignored }
}
