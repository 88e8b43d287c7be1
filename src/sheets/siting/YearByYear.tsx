import type { SitingPlan, YearBill, YearPart } from '../../desk/siting/sitingDoor.ts'
import { From } from '../../ui/From.tsx'
import { type Column, Table } from '../../ui/Table.tsx'
import { lengthFigure, showCount, showNumber, told } from '../show/figures.ts'
import { showMoney } from '../show/money.ts'
import { units } from '../state/farm.ts'
import { planYear, yearAsked } from '../state/sitingPlan.ts'
import {
  boughtWords,
  costWords,
  lifeWords,
  MATERIALS_FROM,
  neededWords,
  printMaterials,
  saveMaterials,
  sumWords,
  USE_WORDS,
} from './materials.ts'

/** What a plan builds, carries and costs each year, and what the year that is opened takes. */
export function YearByYear({ plan }: { readonly plan: SitingPlan }) {
  const years = Object.entries(plan.cost.by_year).map(([year, money]) => ({
    year,
    money,
    built: plan.rows.filter((row) => !row.stands && String(row.built) === year).length,
    permanentM: metresIn(plan, year, 'permanent_m'),
    pulledM: metresIn(plan, year, 'one_season_m'),
  }))
  const each = years.length > 0 ? plan.cost.instead_total / years.length : 0
  const bill = plan.materials.find(({ year }) => year === planYear.value) ?? plan.materials[0]
  type Year = (typeof years)[number]
  const m = (value: number) => told(lengthFigure(value, units.value))
  const columns: readonly Column<Year>[] = [
    { head: 'year', cell: ({ year }) => year },
    { head: 'built', number: true, cell: ({ built }) => (built === 0 ? '–' : showCount(built)) },
    { head: 'along permanent', number: true, cell: ({ permanentM }) => m(permanentM) },
    { head: 'pulled', number: true, cell: ({ pulledM }) => m(pulledM) },
    { head: 'costs', number: true, cell: ({ money }) => showNumber(money, 0) },
  ]
  return (
    <section aria-label="Year by year">
      <h2>Year by year</h2>
      <Table<Year>
        caption="Cost by year"
        quietCaption
        columns={columns}
        rows={years}
        rowKey={({ year }) => year}
        {...(bill && { chosen: String(bill.year), onChoose: ({ year }) => lookAt(year) })}
      />
      <p>
        The same need pulled every autumn: {showMoney(each, 0)} a year.{' '}
        <From about="the cost of a year">
          Building and renewing, use of what stands (ties, tending) and what is still put up for a season and pulled.
        </From>
      </p>
      {bill ? (
        <Materials bill={bill} plan={plan} />
      ) : (
        <p class="hint">This plan was kept without its materials: choose the rows again to see them.</p>
      )}
    </section>
  )
}

function Materials({ bill, plan }: { readonly bill: YearBill; readonly plan: SitingPlan }) {
  const columns: readonly Column<YearPart>[] = [
    {
      head: 'part',
      cell: (part) => (
        <>
          {part.part}
          <br />
          <span class="note">{lifeWords(part)}</span>
        </>
      ),
    },
    { head: 'needed', number: true, cell: neededWords },
    { head: 'new', number: true, cell: boughtWords },
    { head: 'cost', number: true, cell: costWords },
  ]
  return (
    <section aria-label="Materials of the year">
      <h3>What {bill.year} takes</h3>
      {bill.parts.length > 0 && (
        <Table
          caption={`Parts that ${bill.year} takes`}
          quietCaption
          columns={columns}
          rows={bill.parts}
          rowKey={({ use, part, unit, lasts_seasons: lasts }) => JSON.stringify([use, part, unit, lasts])}
          group={({ use }) => USE_WORDS[use]}
        />
      )}
      <p>{sumWords(bill)}</p>
      <From about="the materials">{MATERIALS_FROM}</From>
      <p class="hint">Tap another year for what it takes.</p>
      <p class="deeds" data-print="no">
        <button type="button" onClick={() => printMaterials(plan)}>
          Materials of every year on paper
        </button>
        <button type="button" onClick={() => saveMaterials(plan)}>
          Save as CSV
        </button>
      </p>
    </section>
  )
}

const lookAt = (year: string) => {
  yearAsked.value = Number(year)
}

const metresIn = ({ metres }: SitingPlan, year: string, of: 'permanent_m' | 'one_season_m') =>
  metres.reduce((sum, one) => (String(one.year) === year ? sum + one[of] : sum), 0)
