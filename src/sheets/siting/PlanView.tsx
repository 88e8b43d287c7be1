import { useSignalEffect } from '@preact/signals'
import { useEffect, useRef, useState } from 'preact/hooks'
import type { DeskFault } from '../../desk/door.ts'
import type { SitingAnswer, SitingPlan } from '../../desk/siting/sitingDoor.ts'
import { Choice } from '../../ui/Choice.tsx'
import { Entry } from '../../ui/Entry.tsx'
import { Figure } from '../../ui/Figure.tsx'
import { type Column, Table } from '../../ui/Table.tsx'
import { showDay } from '../show/dates.ts'
import { showCount, showNumber } from '../show/figures.ts'
import { showMoney } from '../show/money.ts'
import { chosen } from '../state/chosen.ts'
import { sitingStale } from '../state/siting.ts'
import {
  answer,
  choosingFault,
  keepPlan,
  keptPlans,
  lookedAt,
  needChanged,
  openNeed,
  planLookedAt,
  plans,
  removeKept,
} from '../state/sitingPlan.ts'
import { BedSites } from './BedSites.tsx'
import { lookAtKept } from './lookAtKept.ts'
import { NeedForm } from './NeedForm.tsx'
import { PlanRows } from './PlanRows.tsx'
import { YearByYear } from './YearByYear.tsx'

/** The choice of rows for permanent supports: the need, the plan, and why. */
export function PlanView() {
  useSignalEffect(() => {
    if (sitingStale.value >= 0) void openNeed()
  })
  const found = answer.value
  const top = useRef<HTMLDivElement>(null)
  const was = useRef(found)
  useEffect(() => {
    if (found && found !== was.current) top.current?.scrollIntoView({ block: 'start' })
    was.current = found
  }, [found])
  return (
    <>
      <div ref={top} />
      {found && <Answered found={found} />}
      {choosingFault.value && (
        <p class="fault" role="alert">
          {choosingFault.value.detail}
        </p>
      )}
      {!planLookedAt.value && chosen.value?.kind === 'beds' && <BedSites bed={chosen.value.id} />}
      <NeedForm />
      {keptPlans.value.length > 0 && <KeptPlans />}
    </>
  )
}

function Answered({ found }: { readonly found: SitingAnswer }) {
  const plan = planLookedAt.value
  if (found.status === 'infeasible' || !plan)
    return (
      <section aria-label="What stands in the way">
        <h2>The need can’t be met as it stands</h2>
        <ul class="notes">
          {found.binding.map(({ limit, by }) => (
            <li key={limit}>
              {limit}: it would have to give by {showNumber(by, 1)}
            </li>
          ))}
        </ul>
      </section>
    )
  const gap = lookedAt.value === 0 ? found.gap : (found.others[lookedAt.value - 1]?.gap ?? 0)
  const saves = plan.cost.instead_total - plan.cost.total
  const toBuild = plan.rows.filter(({ stands }) => !stands)
  return (
    <section aria-label="The plan">
      {plan.rows.length === 0 ? (
        <Figure value="None yet" unit="" from={GROUNDS}>
          Pulling every autumn costs less over these years than any permanent support would:{' '}
          {showMoney(plan.cost.instead_total, 0)} in all. Look further ahead, or change what weighs how much, to see
          when that turns.
        </Figure>
      ) : (
        <Figure value={showCount(plan.rows.length)} unit={plan.rows.length === 1 ? 'row' : 'rows'} from={GROUNDS}>
          get a permanent support
          {toBuild.length < plan.rows.length ? ` (${showCount(plan.rows.length - toBuild.length)} stand already)` : ''}.
          Over these years it costs {showMoney(plan.cost.total, 0)}; pulling everything each autumn{' '}
          {showMoney(plan.cost.instead_total, 0)}, so it {saves >= 0 ? 'saves' : 'costs more by'}{' '}
          {showMoney(Math.abs(saves), 0)}.{' '}
          {plan.payback_year === null
            ? 'It has not paid by their end.'
            : `It has paid by the end of ${plan.payback_year}.`}
        </Figure>
      )}
      <p>
        {gap <= 1e-6
          ? 'No plan is better by what was asked.'
          : `At most ${showNumber(100 * gap, 1)} % from the best there could be.`}{' '}
        {needChanged.value && <strong>The need has changed since: choose again.</strong>}
      </p>
      {plans.value.length > 1 && <SideBySide />}
      <PlanRows plan={plan} />
      <YearByYear key={lookedAt.value} plan={plan} />
      {found.notes.length > 0 && (
        <details class="more">
          <summary>To be borne in mind</summary>
          <ul class="notes">
            {found.notes.map((note) => (
              <li key={note}>{note}</li>
            ))}
          </ul>
        </details>
      )}
      <Keep plan={plan} />
    </section>
  )
}

const GROUNDS =
  'At least cost over the years looked ahead, weights counted in, by mixed-integer programming (HiGHS): each bed carries one climbing row a year, a family comes back to a bed only after its years, the need of each year is met along permanent supports or along ones pulled in autumn. Costs come from the systems’ own parts, prices and labour.'

function SideBySide() {
  const list = plans.value.map((plan, n) => ({
    n,
    plan,
    how: n === 0 ? 'the best found' : (answer.value?.others[n - 1]?.how ?? ''),
  }))
  type One = (typeof list)[number]
  const columns: readonly Column<One>[] = [
    { head: 'plan', cell: ({ n, how }) => `${n + 1}: ${how}` },
    { head: 'rows', number: true, cell: ({ plan }) => showCount(plan.rows.length) },
    { head: 'costs', number: true, cell: ({ plan }) => showNumber(plan.cost.total, 0) },
    { head: 'weights', number: true, cell: ({ plan }) => showNumber(plan.weighed, 0) },
  ]
  return (
    <section aria-label="Plans side by side">
      <h2>Plans side by side</h2>
      <Choice
        label="Plan looked at"
        value={String(lookedAt.value)}
        onChange={(n) => {
          lookedAt.value = Number(n)
        }}
        options={list.map(({ n }) => ({ value: String(n), words: `Plan ${n + 1}` }))}
      />
      <Table caption="Plans side by side" quietCaption columns={columns} rows={list} rowKey={({ n }) => String(n)} />
    </section>
  )
}

function Keep({ plan }: { readonly plan: SitingPlan }) {
  const [name, setName] = useState('')
  const [fault, setFault] = useState<DeskFault | null>(null)
  const fallback = `${showCount(plan.rows.length)} rows from ${Object.keys(plan.cost.by_year)[0] ?? ''}`
  return (
    <form
      class="keep-plan"
      data-print="no"
      onSubmit={(event) => {
        event.preventDefault()
        void keepPlan(name.trim() || fallback).then(setFault)
      }}
    >
      <Entry label="Name of the plan" hint="Kept in the farm with the need that it was chosen for; Undo takes it back.">
        {(names) => (
          <input
            {...names}
            type="text"
            placeholder={fallback}
            value={name}
            onInput={(event) => setName(event.currentTarget.value)}
          />
        )}
      </Entry>
      <button type="submit">Keep this plan</button>
      {fault && (
        <p class="fault" role="alert">
          {fault.detail}
        </p>
      )}
    </form>
  )
}

/** Plans kept in the farm, the latest first, each to be looked at again with its need. */
function KeptPlans() {
  const [fault, setFault] = useState<DeskFault | null>(null)
  return (
    <section aria-label="Kept plans" data-print="no">
      <h2>Kept plans</h2>
      <ul class="kept-plans">
        {keptPlans.value.map(({ id, name, made, answer: told }) => (
          <li key={id}>
            <span>
              {name}, {showDay(made)}
            </span>
            <button
              type="button"
              disabled={told === null}
              onClick={() => lookAtKept(id)}
              aria-label={`Look at ${name}`}
            >
              Look at it
            </button>
            <button
              type="button"
              class="quiet"
              onClick={() => void removeKept(id).then(setFault)}
              aria-label={`Remove ${name}`}
            >
              Remove
            </button>
          </li>
        ))}
      </ul>
      {fault && (
        <p class="fault" role="alert">
          {fault.detail}
        </p>
      )}
    </section>
  )
}
