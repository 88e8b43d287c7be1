import { useState } from 'preact/hooks'
import { type CatalogueCrop, cropOf } from '../../../geo/catalogue/catalogueCrop.ts'
import { CATALOGUE } from '../../../geo/catalogue/crops.ts'
import { returnYears } from '../../../geo/catalogue/families.ts'
import type { Crop } from '../../../geo/model/crops.ts'
import { Entry } from '../../ui/Entry.tsx'
import { type Column, Table } from '../../ui/Table.tsx'
import { densityFigure, showCount, told } from '../show/figures.ts'
import { cropOpen, crops, openCrop, varieties } from '../state/crops.ts'
import { units } from '../state/farm.ts'
import { newId } from '../state/newId.ts'
import { doEdits } from '../state/steps.ts'
import { spacingText, spacingUnit } from './draft.ts'

/** The farm's crops, and the catalogue that more may be taken from. */
export function CropsView() {
  const own = crops.value ?? []
  const counts = new Map<string, number>()
  for (const { crop } of varieties.value) counts.set(crop, (counts.get(crop) ?? 0) + 1)
  const columns: readonly Column<Crop>[] = [
    { head: 'crop', cell: ({ name }) => name, sort: ({ name }) => name },
    { head: 'family', cell: ({ family }) => family, sort: ({ family }) => family },
    {
      head: 'returns',
      unit: 'years',
      number: true,
      cell: (crop) => returnYears(crop)?.[0].toLocaleString() ?? '',
      sort: (crop) => returnYears(crop)?.[0] ?? null,
    },
    {
      head: 'varieties',
      number: true,
      cell: ({ id }) => showCount(counts.get(id) ?? 0),
      sort: ({ id }) => counts.get(id) ?? 0,
    },
  ]
  return (
    <>
      <section aria-label="Crops of this farm">
        <h2>Crops of this farm</h2>
        {own.length === 0 ? (
          <p class="first-steps">
            No crop is told of yet. Take some from the catalogue, or tell of one that it does not have.
          </p>
        ) : (
          <Table
            caption="Crops of this farm"
            quietCaption
            columns={columns}
            rows={own}
            rowKey={({ id }) => id}
            chosen={cropOpen.value}
            onChoose={({ id }) => openCrop(id)}
          />
        )}
        <p class="deeds-quiet">
          <button type="button" onClick={() => openCrop('new')}>
            A crop of my own
          </button>
        </p>
      </section>
      <Catalogue own={own} />
    </>
  )
}

function Catalogue({ own }: { readonly own: readonly Crop[] }) {
  const [sought, setSought] = useState('')
  const [fault, setFault] = useState<string | null>(null)
  const taken = new Set(own.flatMap(({ id, name }) => [id, name.toLowerCase()]))
  const words = sought.trim().toLowerCase()
  const offered = CATALOGUE.filter(
    ({ key, name, family }) =>
      !taken.has(key) && !taken.has(name.toLowerCase()) && `${name} ${family}`.toLowerCase().includes(words),
  )
  const take = async (entry: CatalogueCrop) => {
    const id = own.some((crop) => crop.id === entry.key) ? newId() : entry.key
    const reply = await doEdits(`Take ${entry.name} from the catalogue`, [
      { do: 'add', kind: 'crops', record: cropOf(entry, id) },
    ])
    setFault(reply.ok ? null : reply.fault.detail)
    if (reply.ok) openCrop(id)
  }
  return (
    <section aria-label="Catalogue" class="catalogue">
      <h2>From the catalogue</h2>
      <Entry label="Crop or family" fault={fault}>
        {(names) => (
          <input
            {...names}
            type="text"
            autocomplete="off"
            value={sought}
            onInput={(event) => setSought(event.currentTarget.value)}
          />
        )}
      </Entry>
      {offered.length === 0 && <p class="hint">Nothing in the catalogue is called so, or the farm has it already.</p>}
      <ul>
        {offered.map((entry) => (
          <li key={entry.key}>
            <details>
              <summary>
                {entry.name} <span class="of-family">{entry.family}</span>
              </summary>
              <dl class="sourced">
                {linesOf(entry).map(([what, value, source]) => (
                  <div key={what}>
                    <dt>{what}</dt>
                    <dd>
                      {value}
                      <span class="its-source">{source}</span>
                    </dd>
                  </div>
                ))}
              </dl>
            </details>
            <button type="button" onClick={() => void take(entry)}>
              Take<span class="unseen"> {entry.name}</span>
            </button>
          </li>
        ))}
      </ul>
    </section>
  )
}

const yesNo = (yes: boolean) => (yes ? 'yes' : 'no')

/** Every value of an entry with its source. */
function linesOf(entry: CatalogueCrop): readonly (readonly [what: string, value: string, source: string])[] {
  const { climbs, juglone, returnYears, spacingM, yieldKgPerM2, touchesSoil, firstPickDays, standsYears } = entry
  const density = (kgPerM2: number) => told(densityFigure(kgPerM2, units.value))
  const years = (n: number) => `${showCount(n)} ${n === 1 ? 'year' : 'years'}`
  return [
    ['its family returns after', returnYears ? years(returnYears[0]) : 'not told', returnYears?.[1] ?? 'none found'],
    ['climbs', yesNo(climbs[0]), climbs[1]],
    ['near walnuts', `${juglone[0]} (${juglone[2]})`, juglone[1]],
    ['closest usual spacing', `${spacingText(spacingM[0], units.value)} ${spacingUnit(units.value)}`, spacingM[1]],
    [
      'usual yield',
      yieldKgPerM2 ? `${density(yieldKgPerM2[0])} to ${density(yieldKgPerM2[1])}` : 'not told',
      yieldKgPerM2?.[2] ?? 'none found',
    ],
    ['what is eaten touches the soil', yesNo(touchesSoil[0]), touchesSoil[1]],
    [
      'first pick after',
      firstPickDays ? `${showCount(firstPickDays[0])} days` : 'not told',
      firstPickDays?.[1] ?? 'none found',
    ],
    ['stands', years(standsYears[0]), standsYears[1]],
  ]
}
