import { From } from '../../ui/From.tsx'
import { type Column, Table } from '../../ui/Table.tsx'
import { alongFigure, densityFigure, massFigure, showNumber } from '../show/figures.ts'
import { choose, chosen } from '../state/chosen.ts'
import type { Yielded, YieldedBed } from '../state/door.ts'
import { units } from '../state/farm.ts'
import { measured } from '../state/shown.ts'
import { groundWords } from './groundWords.ts'

/** Every bed that was picked, with what it gave; the least index first where no column is chosen. */
export function BedYields({ view }: { readonly view: Yielded }) {
  const names = new Map(measured.value?.beds.map(({ id, name }) => [id, name]))
  const name = (bed: YieldedBed) => names.get(bed.id) ?? bed.id
  const us = units.value === 'us'
  const columns: readonly Column<YieldedBed>[] = [
    { head: 'bed', cell: name, sort: name },
    {
      head: us ? 'lb' : 'kg',
      number: true,
      cell: (bed) => massFigure(bed.kg, units.value).value,
      sort: (bed) => bed.kg,
    },
    {
      head: us ? 'lb/ft²' : 'kg/m²',
      number: true,
      cell: (bed) => densityFigure(bed.kgPerM2, units.value).value,
      sort: (bed) => bed.kgPerM2,
    },
    {
      head: us ? 'lb/ft' : 'kg/m',
      number: true,
      cell: (bed) => (bed.kgPerRowM === null ? '–' : alongFigure(bed.kgPerRowM, units.value).value),
      sort: (bed) => bed.kgPerRowM,
    },
    {
      head: 'index',
      number: true,
      cell: (bed) => (bed.index === null ? '–' : showNumber(bed.index, 2)),
      sort: (bed) => bed.index,
    },
  ]
  const picked = view.beds.filter(({ kg }) => kg > 0)
  const least = [...picked].sort((a, b) => (a.index ?? Infinity) - (b.index ?? Infinity))
  return (
    <section aria-label="Bed by bed">
      <h2>Bed by bed</h2>
      <Table
        caption={`Yield by bed, ${groundWords(view.seasons, view.of)}`}
        quietCaption
        columns={columns}
        rows={least}
        rowKey={(bed) => bed.id}
        chosen={chosen.value?.kind === 'beds' ? chosen.value.id : null}
        onChoose={(bed) => void choose({ kind: 'beds', id: bed.id })}
      />
      <From about="a bed’s yield">
        Density: over the bed’s whole area. Along: over the row metres of its picked plantings. Index: picked over
        expected, expected being the farm’s mean for the same crop and season on as much ground; 1 is par, and tomatoes
        are never held against peppers. A dash: too little to tell. Beds where nothing was picked are left out.
      </From>
    </section>
  )
}
