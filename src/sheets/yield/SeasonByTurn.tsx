import type { Answer } from '../../desk/door.ts'
import { From } from '../../ui/From.tsx'
import { Progress } from '../../ui/Progress.tsx'
import { type Column, Table } from '../../ui/Table.tsx'
import { showDay } from '../show/dates.ts'
import { massFigure, showCount, showNumber, told } from '../show/figures.ts'
import { choose } from '../state/chosen.ts'
import { crops } from '../state/crops.ts'
import { units } from '../state/farm.ts'
import { measured } from '../state/shown.ts'
import { yieldMoreFault, yieldSeasons } from '../state/yieldMore.ts'

type Seasons = Answer<'yieldSeasons'>
type BedLine = Seasons['beds'][number]
type CropLine = Seasons['outlook']['crops'][number]

/** What each bed gave season by season, and what the season of the day is to give. */
export function SeasonByTurn() {
  const all = yieldSeasons.value
  if (!all) return yieldMoreFault.value ? null : <Progress doing="Setting season against season" />
  return (
    <>
      <Outlook outlook={all.outlook} />
      <BedTable all={all} />
    </>
  )
}

const nameOf = (id: string) => crops.value?.find((crop) => crop.id === id)?.name ?? id

function Outlook({ outlook }: { readonly outlook: Seasons['outlook'] }) {
  const mass = (kg: number) => told(massFigure(kg, units.value))
  const { expectedKg, lowKg, highKg, pickedKg, ofNoCropKg, crops: grown, season, on } = outlook
  const { unit } = massFigure(0, units.value)
  const plain = (kg: number) => massFigure(kg, units.value).value
  const columns: readonly Column<CropLine>[] = [
    { head: 'crop', cell: ({ crop }) => nameOf(crop), sort: ({ crop }) => nameOf(crop) },
    { head: 'picked', unit, number: true, cell: ({ pickedKg: kg }) => plain(kg), sort: ({ pickedKg: kg }) => kg },
    {
      head: 'in all',
      unit,
      number: true,
      cell: ({ expectedKg: kg }) => (kg === null ? '–' : plain(kg)),
      sort: ({ expectedKg: kg }) => kg,
    },
    {
      head: 'between',
      cell: ({ lowKg: low, highKg: high, seasons }) =>
        low !== null && high !== null
          ? `${plain(low)} to ${plain(high)}`
          : seasons.length === 1
            ? 'too little to tell'
            : '–',
    },
    {
      head: 'rests on',
      cell: restsOn,
    },
  ]
  return (
    <section aria-label="What the season is to give">
      <h2>What {season} is to give</h2>
      <p>
        {mass(pickedKg)} picked up to {showDay(on)}
        {ofNoCropKg > 0 && ` (${mass(ofNoCropKg)} of it told by bed or by spot, of no crop that can be told)`}
        {expectedKg === null
          ? '; nothing is known yet of what to expect.'
          : mass(expectedKg) === mass(pickedKg) && highKg === null
            ? '; no more is to be expected.'
            : `, of some ${mass(expectedKg)} to be expected${lowKg === null || highKg === null ? '' : ` (${mass(lowKg)} to ${mass(highKg)})`}.`}
      </p>
      {grown.length > 0 && (
        <Table caption="Crop by crop" columns={columns} rows={grown} rowKey={({ crop }) => crop} few={12} />
      )}
      <From about="the season’s outlook">
        From own seasons: what is picked, and what they gave after this day of the season on as much ground as this
        season’s, less where less of it still stands (Bornhuetter & Ferguson 1972); from two or more with the range in
        which one more season’s such rest lies 95 times of 100 (Hahn & Meeker 1991), from one without a range. So much
        by now: the share that was picked by this day in those seasons. Else the crop’s usual yield. Of a crop that is
        cleared everywhere, what is picked.
      </From>
    </section>
  )
}

function restsOn({ rests, seasons, usualShareByNow }: CropLine): string {
  switch (rests) {
    case 'all cleared':
      return 'all cleared'
    case 'own seasons': {
      const by = Math.round((usualShareByNow ?? 0) * 100)
      return `${showCount(seasons.length)} ${seasons.length === 1 ? 'season' : 'seasons'}, ${by} % by now`
    }
    case 'usual yield':
      return 'usual yield'
    case 'nothing':
      return 'nothing known'
  }
}

function BedTable({ all }: { readonly all: Seasons }) {
  if (all.seasons.length === 0) return null
  const name = new Map((measured.value?.beds ?? []).map((bed) => [bed.id, bed.name]))
  const lastOf = (line: BedLine) => line.seasons.at(-1) ?? null
  const columns: readonly Column<BedLine>[] = [
    { head: 'bed', cell: ({ id }) => name.get(id) ?? id, sort: ({ id }) => name.get(id) ?? id },
    ...all.seasons.map(
      (season, s): Column<BedLine> => ({
        head: String(season),
        unit: massFigure(0, units.value).unit,
        number: true,
        cell: ({ seasons }) => massFigure(seasons[s]?.kg ?? 0, units.value).value,
        sort: ({ seasons }) => seasons[s]?.kg ?? null,
      }),
    ),
    {
      head: 'rank',
      number: true,
      cell: (line) => {
        const last = lastOf(line)
        return last?.rank ? `${showCount(last.rank)} of ${showCount(last.of)}` : '–'
      },
      sort: (line) => {
        const rank = lastOf(line)?.rank
        return rank ? -rank : null
      },
    },
    {
      head: 'change',
      number: true,
      cell: (line) => {
        const change = lastOf(line)?.change ?? null
        return change === null ? '–' : `${change > 0 ? '+' : ''}${showNumber(change, 2)}`
      },
      sort: (line) => lastOf(line)?.change ?? null,
    },
  ]
  return (
    <>
      <Table
        caption="What each bed gave, season by season"
        columns={columns}
        rows={all.beds.filter(({ seasons }) => seasons.some(({ kg }) => kg > 0))}
        rowKey={({ id }) => id}
        onChoose={({ id }) => void choose({ kind: 'beds', id })}
        few={20}
      />
      <From about="rank and change">
        Rank: by the last season’s yield index, 1 the highest, among beds that have one. Change: the index less that of
        the season before in which the bed had one. The index holds each bed against what its crops gave across the
        farm.
      </From>
      {all.zones.length > 0 && (
        <p>
          {all.zones
            .map(
              ({ toldSeasons, coldSeasons }, n) =>
                `Zone ${n + 1} was cold in ${showCount(coldSeasons.length)} of the ${showCount(toldSeasons.length)} seasons that tell of it.`,
            )
            .join(' ')}
        </p>
      )}
    </>
  )
}
