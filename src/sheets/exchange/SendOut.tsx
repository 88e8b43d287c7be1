import { useState } from 'preact/hooks'
import type { Fault, FormatName } from '../../desk/door.ts'
import { Dialog } from '../../ui/Dialog.tsx'
import { Entry } from '../../ui/Entry.tsx'
import { saveFile } from '../frame/saveFile.ts'
import { ask } from '../state/door.ts'
import { on } from '../state/where.ts'
import { FaultList } from './FaultList.tsx'
import { KIND_WORDS } from './fieldWords.ts'

const KINDS = ['fields', 'beds', 'rows', 'trees', 'supports', 'structures', 'observations']
const FORMATS: readonly { readonly value: FormatName; readonly words: string }[] = [
  { value: 'geojson', words: 'GeoJSON' },
  { value: 'geopackage', words: 'GeoPackage' },
  { value: 'shapefile', words: 'shapefiles, zipped' },
  { value: 'kml', words: 'KML' },
  { value: 'kmz', words: 'KMZ' },
  { value: 'gpx', words: 'GPX, for devices that show the way' },
  { value: 'csv', words: 'CSV with coordinates' },
]

/** Which layers, in which format, as on which day: saved as a file for other programs. */
export function SendOut({ onClose }: { readonly onClose: () => void }) {
  const [kinds, setKinds] = useState<readonly string[]>(KINDS)
  const [format, setFormat] = useState<FormatName>('geojson')
  const [day, setDay] = useState(on.value)
  const [fault, setFault] = useState<string | null>(null)
  const [notes, setNotes] = useState<readonly Fault[] | null>(null)
  const send = async (event: Event) => {
    event.preventDefault()
    if (kinds.length === 0) return setFault('Choose a layer.')
    const reply = await ask('sendOut', { format, kinds, on: day === '' ? null : day })
    if (!reply.ok) return setFault(reply.fault.detail)
    const { file, mediaType } = reply.value
    saveFile(file.name, new Blob([file.bytes.slice()], { type: mediaType }))
    if (reply.value.notes.length === 0) return onClose()
    setFault(null)
    setNotes(reply.value.notes)
  }
  return (
    <Dialog title="Send out" onClose={onClose}>
      <form onSubmit={send} noValidate>
        <Entry label="Format">
          {(names) => (
            <select {...names} value={format} onChange={(e) => setFormat(e.currentTarget.value as FormatName)}>
              {FORMATS.map(({ value, words }) => (
                <option key={value} value={value}>
                  {words}
                </option>
              ))}
            </select>
          )}
        </Entry>
        <fieldset class="send-layers">
          <legend>Layers</legend>
          {KINDS.map((kind) => (
            <label key={kind} class="check">
              <input
                type="checkbox"
                checked={kinds.includes(kind)}
                onChange={(e) =>
                  setKinds(e.currentTarget.checked ? [...kinds, kind] : kinds.filter((one) => one !== kind))
                }
              />
              {KIND_WORDS[kind]}
            </label>
          ))}
        </fieldset>
        <Entry label="As on" hint="Empty: what stood on any day. Observations are those made until then.">
          {(names) => <input {...names} type="date" value={day} onChange={(e) => setDay(e.currentTarget.value)} />}
        </Entry>
        {fault !== null && (
          <p class="fault" role="alert">
            {fault}
          </p>
        )}
        <p class="deeds">
          <button type="submit" class="first-deed">
            Save the file
          </button>
        </p>
      </form>
      {notes && <FaultList title="Saved; this the format can’t hold" faults={notes} />}
    </Dialog>
  )
}
