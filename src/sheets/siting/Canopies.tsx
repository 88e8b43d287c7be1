import { useSignalEffect } from '@preact/signals'
import type { BedUnder } from '../../desk/door.ts'
import { Figure } from '../../ui/Figure.tsx'
import { From } from '../../ui/From.tsx'
import { Progress } from '../../ui/Progress.tsx'
import { type Column, Table } from '../../ui/Table.tsx'
import { lengthFigure, showCount } from '../show/figures.ts'
import { choose, chosen } from '../state/chosen.ts'
import { units } from '../state/farm.ts'
import { measured } from '../state/shown.ts'
import { AHEAD_YEARS, askCanopies, canopies, sitingStale, yearsOn } from '../state/siting.ts'
import { on } from '../state/where.ts'

/** Trees as they will be, and the year in which each bed comes under one. */
export function Canopies() {
  useSignalEffect(() => {
    if (sitingStale.value >= 0) void askCanopies(on.value)
  })
  const told = canopies.value
  if (!told) return <Progress doing="Growing the trees" />
  if (told.trees.length === 0)
    return (
      <p class="first-steps">
        <strong>No tree stands on this day.</strong> Draw one on the Ground sheet, with its species, its canopy and the
        day it was measured, and it is grown from there.
      </p>
    )
  const n = Math.min(yearsOn.value, told.years.length - 1)
  const year = told.years[n]!
  const beds = (of: 'canopyFrom' | 'reachFrom') =>
    new Set(told.under.filter((one) => one[of] !== null && one[of] <= year).map(({ bed }) => bed)).size
  return (
    <>
      <Figure
        value={showCount(beds('canopyFrom'))}
        unit={beds('canopyFrom') === 1 ? 'bed' : 'beds'}
        from="Crowns of black walnut grow by the curve of USDA Forest Service PSW-GTR-253 (Lower Midwest), set back or forward to the size that was measured. For other species no curve is published that we know of: they stay as measured, marked as assumed. Root reach goes by height, up to 60 ft for a grown walnut (Ohio State; UW–Madison)."
      >
        will lie under a canopy in {year}, at least in part; roots of juglone sources may reach{' '}
        {showCount(beds('reachFrom'))}. Evidence on juglone is disputed.
      </Figure>
      <UnderTable />
      <TreeTable n={n} />
    </>
  )
}

function UnderTable() {
  const told = canopies.value!
  const bedNames = new Map(measured.value?.beds.map(({ id, name }) => [id, name]))
  const trees = new Map(told.trees.map((tree) => [tree.id, tree]))
  const bed = (one: BedUnder) => bedNames.get(one.bed) ?? one.bed
  const tree = (one: BedUnder) => trees.get(one.tree)?.name ?? one.tree
  const from = (year: number | null) => (year === null ? '–' : year === told.years[0] ? 'now' : String(year))
  const columns: readonly Column<BedUnder>[] = [
    { head: 'bed', cell: bed, sort: bed },
    { head: 'tree', cell: tree, sort: tree },
    { head: 'canopy from', number: true, cell: (one) => from(one.canopyFrom), sort: (one) => one.canopyFrom },
    { head: 'roots from', number: true, cell: (one) => from(one.reachFrom), sort: (one) => one.reachFrom },
  ]
  if (told.under.length === 0) return <p>No tree comes over a bed within {showCount(AHEAD_YEARS)} years.</p>
  return (
    <section aria-label="Beds that come under trees">
      <h2>When beds come under trees</h2>
      <Table
        caption="Year in which each bed comes under a tree"
        quietCaption
        columns={columns}
        rows={told.under}
        rowKey={(one) => `${one.bed} ${one.tree}`}
        few={30}
        onChoose={(one) => void choose({ kind: 'beds', id: one.bed })}
      />
      <From about="the year a bed comes under a tree">
        The first year, looking {showCount(AHEAD_YEARS)} ahead on the same day of each, in which the canopy (or for
        juglone sources the root reach) is wider than the way from the trunk to the bed’s nearest edge. A dash: not
        within these years.
      </From>
    </section>
  )
}

function TreeTable({ n }: { readonly n: number }) {
  const told = canopies.value!
  const m = (value: number) => lengthFigure(value, units.value).value
  const unit = units.value === 'us' ? 'ft' : 'm'
  type Tree = (typeof told.trees)[number]
  const columns: readonly Column<Tree>[] = [
    { head: 'tree', cell: ({ name }) => name, sort: ({ name }) => name },
    { head: 'canopy now', unit, number: true, cell: (t) => m(t.canopyM[0]!), sort: (t) => t.canopyM[0]! },
    { head: `in ${told.years[n]}`, unit, number: true, cell: (t) => m(t.canopyM[n]!), sort: (t) => t.canopyM[n]! },
    { head: 'known', cell: (t) => (t.assumed ? 'assumed' : 'by its curve'), sort: (t) => Number(t.assumed) },
  ]
  return (
    <section aria-label="Trees by year">
      <h2>Tree by tree</h2>
      <Table
        caption="Canopy radius now and in the year shown"
        quietCaption
        columns={columns}
        rows={told.trees}
        rowKey={({ id }) => id}
        few={20}
        chosen={chosen.value?.kind === 'trees' ? chosen.value.id : null}
        onChoose={({ id }) => void choose({ kind: 'trees', id })}
      />
    </section>
  )
}
