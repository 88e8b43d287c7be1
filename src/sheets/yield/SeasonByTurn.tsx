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
  const { expectedKg, lowKg, highKg, pickedKg, crops: grown, season, on } = outlook
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
      cell: ({ lowKg: low, highKg: high }) =>
        low === null || high === null ? 'too little to tell' : `${plain(low)} to ${plain(high)}`,
    },
    {
      head: 'rests on',
      cell: ({ rests, seasons }) =>
        rests === 'own seasons'
          ? `${showCount(seasons.length)} own ${seasons.length === 1 ? 'season' : 'seasons'}`
          : rests === 'nothing'
            ? 'nothing known'
            : 'usual yield',
    },
  ]
  return (
    <section aria-label="What the season is to give">
      <h2>What {season} is to give</h2>
      <p>
        {mass(pickedKg)} picked up to {showDay(on)}
        {expectedKg === null
          ? '; nothing is known yet of what to expect.'
          : `, of some ${mass(expectedKg)} to be expected${lowKg === null || highKg === null ? '' : ` (${mass(lowKg)} to ${mass(highKg)})`}.`}
      </p>
      {grown.length > 0 && (
        <Table caption="Crop by crop" columns={columns} rows={grown} rowKey={({ crop }) => crop} few={12} />
      )}
      <From about="the season’s outlook">
        From two own seasons or more: the mean of their mass on its ground, and the range in which one more season lies
        95 times of 100 (Hahn & Meeker 1991). From one: that season alone, without a range. Else the crop’s usual yield.
      </From>
    </section>
  )
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
