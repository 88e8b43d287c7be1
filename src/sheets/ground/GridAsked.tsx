import { useState } from 'preact/hooks'
import type { PhotoFile } from '../../desk/door.ts'
import { Choice } from '../../ui/Choice.tsx'
import { Entry } from '../../ui/Entry.tsx'
import { gridWanted } from '../state/photos.ts'

interface Props {
  readonly wanted: { readonly files: readonly PhotoFile[]; readonly why: string }
  readonly open: (files: readonly PhotoFile[], crs: string) => Promise<void>
}

type Grid = 'lonlat' | 'north' | 'south'

/** Asked where a photo's files don't say which grid their numbers are in. */
export function GridAsked({ wanted, open }: Props) {
  const [grid, setGrid] = useState<Grid>('north')
  const [zone, setZone] = useState('')
  const [fault, setFault] = useState<string | null>(null)
  const keep = (event: Event) => {
    event.preventDefault()
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
        ]}
      />
      {grid !== 'lonlat' && (
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
        <button
          type="button"
          onClick={() => {
            gridWanted.value = null
          }}
        >
          Leave it
        </button>
      </p>
    </form>
  )
}
