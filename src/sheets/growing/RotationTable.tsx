import type { RotationAnswer } from '../../desk/siting/sitingDoor.ts'
import { From } from '../../ui/From.tsx'
import { type Column, Table } from '../../ui/Table.tsx'
import { lengthFigure, showNumber, told } from '../show/figures.ts'
import { choose, chosen } from '../state/chosen.ts'
import { units } from '../state/farm.ts'

type Bed = RotationAnswer['beds'][number]
type Group = RotationAnswer['groups'][number]

/** Whether a rotation gives anything a bed; one that was ended too soon may not. */
export const holdsSomething = ({ beds }: RotationAnswer): boolean =>
  beds.some(({ years }) => Object.keys(years).length > 0)

/** The rotation bed by bed, and what does not fit. */
export function RotationTable({ answer }: { readonly answer: RotationAnswer }) {
  const { season, groups, beds, short, crowded, status, gap } = answer
  if (!holdsSomething(answer))
    return (
      <section aria-label="What follows what">
        <p role="status">
          Nothing was found that gives anything a bed, in the time that there was: look fewer years ahead, let families
          return sooner, or reckon again.
        </p>
      </section>
    )
  const letters = new Map(groups.map(({ name, letter }) => [name, letter]))
  const now = new Map(groups.flatMap(({ name, from_beds }) => from_beds.map((bed) => [bed, name] as const)))
  const years = answer.seasons.map(String)
  const length = (metres: number) => told(lengthFigure(metres, units.value))
  const cell = (group: string | undefined) =>
    group === undefined ? <span class="quiet-cell">rests</span> : <abbr title={group}>{letters.get(group)}</abbr>
  const columns: readonly Column<Bed>[] = [
    { head: 'bed', cell: ({ name }) => name },
    { head: String(season), cell: ({ bed }) => cell(now.get(bed)) },
    ...years.map((year): Column<Bed> => ({ head: year, cell: (bed) => cell(bed.years[year]) })),
  ]
  const groupColumns: readonly Column<Group>[] = [
    { head: 'group', cell: ({ letter }) => letter },
    {
      head: 'families',
      cell: ({ name, crops }) => (
        <>
          {name}
          <br />
          <span class="note">{crops.join(', ')}</span>
        </>
      ),
    },
    { head: 'of bed', number: true, cell: ({ need_m: needM }) => length(needM) },
  ]
  return (
    <section aria-label="What follows what">
      <h3>What follows what</h3>
      <p>
        {status === 'short'
          ? 'Not everything finds a bed every season.'
          : status === 'optimal'
            ? 'No rotation does better by what is weighed.'
            : `At most ${showNumber(100 * gap, 1)} % from the best by what is weighed.`}{' '}
        <From about="the rotation">
          Every group keeps the metres of bed that it fills in {season}, to a twentieth. Of all ways that keep the
          returns, the one is looked for (mixed-integer programming, HiGHS) that stands least beneath canopies and,
          where sensitive, within walnuts’ reach, and climbs most where a permanent support stands. Evidence on juglone
          is disputed: walnuts are weighed, not judged.
        </From>
      </p>
      {crowded.map(({ family, fills, room }) => (
        <p key={family}>
          {family} fill {showNumber(100 * fills, 0)} % of the beds, and their return leaves room for{' '}
          {showNumber(100 * room, 0)} %: grow less of them, or let them return sooner.
        </p>
      ))}
      {short.length > 0 && (
        <details class="more">
          <summary>What finds no bed</summary>
          <ul class="notes">
            {short.map(({ year, group, metres }) => (
              <li key={`${year} ${group}`}>
                {year}: {length(metres)} of {letters.get(group)}, {group}
              </li>
            ))}
          </ul>
        </details>
      )}
      <Table
        caption="What each letter stands for"
        quietCaption
        columns={groupColumns}
        rows={groups}
        rowKey={({ name }) => name}
      />
      <div class="bed-years">
        <Table
          caption="The rotation, bed by bed"
          quietCaption
          columns={columns}
          rows={beds.filter(({ left, years: told }) => left === null || Object.keys(told).length > 0)}
          rowKey={({ bed }) => bed}
          chosen={chosen.value?.kind === 'beds' ? chosen.value.id : null}
          onChoose={({ bed }) => void choose({ kind: 'beds', id: bed })}
        />
      </div>
    </section>
  )
}
