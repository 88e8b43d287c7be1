import { useState } from 'preact/hooks'
import type { PhotoFile } from '../../desk/door.ts'
import { Choice } from '../../ui/Choice.tsx'
import { Entry } from '../../ui/Entry.tsx'
import { largeGridWanted } from '../state/largePhotos.ts'
import { gridWanted } from '../state/photos.ts'
import { startPlacing } from './placing/startPlacing.ts'

interface Props<F> {
  readonly wanted: { readonly files: readonly F[]; readonly why: string }
  readonly open: (files: readonly F[], crs: string) => Promise<void>
}

type Grid = 'lonlat' | 'north' | 'south' | 'other'

/** Asked where a photo's files don't say which grid their numbers are in. */
export function GridAsked<F extends PhotoFile | File>({ wanted, open }: Props<F>) {
  const [grid, setGrid] = useState<Grid>('north')
  const [zone, setZone] = useState('')
  const [other, setOther] = useState('')
  const [fault, setFault] = useState<string | null>(null)
  const keep = (event: Event) => {
    event.preventDefault()
    if (grid === 'other') {
      if (other.trim() === '') return setFault('Give an EPSG code or a PROJ string.')
      return void open(wanted.files, other.trim())
    }
    const number = Number(zone)
    if (grid !== 'lonlat' && !(Number.isInteger(number) && number >= 1 && number <= 60)) {
      setFault('Zones are numbered 1 to 60.')
      return
    }
    void open(wanted.files, grid === 'lonlat' ? 'EPSG:4326' : `EPSG:${(grid === 'north' ? 32600 : 32700) + number}`)
  }
  return (
    <form class="grid-asked" aria-label="Which grid" onSubmit={keep}>
      <h3>Which grid is it in?</h3>
      <p>{wanted.why}</p>
      <Choice
        label="Grid"
        value={grid}
        onChange={setGrid}
        options={[
          { value: 'lonlat', words: 'Longitude, latitude' },
          { value: 'north', words: 'UTM north' },
          { value: 'south', words: 'UTM south' },
          { value: 'other', words: 'Another' },
        ]}
      />
      {grid === 'other' && (
        <Entry
          label="EPSG code or PROJ string"
          fault={fault}
          hint="As 2154, or +proj=tmerc +lat_0=… +lon_0=… +k=… +x_0=… +y_0=… +ellps=… +towgs84=… Without +towgs84 a photo on an old datum may lie hundreds of metres off."
        >
          {(names) => (
            <input {...names} type="text" value={other} onInput={(event) => setOther(event.currentTarget.value)} />
          )}
        </Entry>
      )}
      {(grid === 'north' || grid === 'south') && (
        <Entry
          label="UTM zone"
          fault={fault}
          hint="Zones are 6° of longitude wide: the whole part of (longitude + 180) / 6, and one."
        >
          {(names) => (
            <input
              {...names}
              type="text"
              inputMode="numeric"
              value={zone}
              onInput={(event) => setZone(event.currentTarget.value)}
            />
          )}
        </Entry>
      )}
      <p class="deeds">
        <button type="submit" class="first-deed">
          Open it there
        </button>
        <button type="button" onClick={() => void startPlacing(chosenOf(wanted.files))}>
          Place it by points
        </button>
        <button
          type="button"
          onClick={() => {
            gridWanted.value = null
            largeGridWanted.value = null
          }}
        >
          Leave it
        </button>
      </p>
    </form>
  )
}

/** Files that were read whole, or large ones that are read by parts. */
function chosenOf(files: readonly (PhotoFile | File)[]): readonly PhotoFile[] | { readonly large: readonly File[] } {
  const large = files.filter((file) => file instanceof File)
  return large.length > 0 ? { large } : (files as readonly PhotoFile[])
}
