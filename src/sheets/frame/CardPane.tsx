import type { Card } from '../../desk/door.ts'
import { From } from '../../ui/From.tsx'
import { later } from '../../ui/later.tsx'
import { CardDeeds } from '../ground/CardDeeds.tsx'
import { Pen } from '../ground/Pen.tsx'
import { RecordForm } from '../ground/RecordForm.tsx'
import { SeveralPane } from '../ground/SeveralPane.tsx'
import { GrowingDeeds } from '../growing/GrowingDeeds.tsx'
import { PickDeeds } from '../picking/PickDeeds.tsx'
import { showLine } from '../show/cardLine.ts'
import { act } from '../state/act.ts'
import { card, cardFault, choose, chosen } from '../state/chosen.ts'
import { cropOpen } from '../state/crops.ts'
import { pending, tool } from '../state/drawing.ts'
import { units } from '../state/farm.ts'
import { laying } from '../state/laying.ts'
import { placer } from '../state/placing.ts'
import { settingOut } from '../state/settingOut.ts'
import { several } from '../state/several.ts'
import { walking } from '../state/walking.ts'
import { sheet } from '../state/where.ts'
import { yieldTapped } from '../yield/yieldHere.ts'

const ActPane = later(async () => (await import('../ground/acts/ActPane.tsx')).ActPane)
const PickEntry = later(async () => (await import('../picking/PickEntry.tsx')).PickEntry)
const Layout = later(async () => (await import('../ground/laying/Layout.tsx')).Layout)
const SideRun = later(async () => (await import('../supports/SideRun.tsx')).SideRun)
const RunOnCard = later(async () => (await import('../supports/RunOnCard.tsx')).RunOnCard)
const Walk = later(async () => (await import('../ground/walk/Walk.tsx')).Walk)
const SetOutForm = later(async () => (await import('../growing/SetOutForm.tsx')).SetOutForm)
const CropForm = later(async () => (await import('../growing/CropForm.tsx')).CropForm)
const BedStrip = later(async () => (await import('../growing/BedStrip.tsx')).BedStrip)
const CardWarnings = later(async () => (await import('../growing/CardWarnings.tsx')).CardWarnings)

/** What is being done with things that stand, the pen while something is drawn, the form of what has just been drawn or is being changed, what is being laid out or set out, a crop, or the card of what is tapped. */
export function CardPane() {
  if (placer.value && sheet.value === 'ground') return <placer.value.Panel />
  if (act.value) return <ActPane act={act.value} />
  if (tool.value && tool.value.do !== 'select') return <Pen tool={tool.value} />
  if (pending.value) return <RecordForm key={pending.value.id} pending={pending.value} />
  if (walking.value) return <Walk />
  if (laying.value) return <Layout laying={laying.value} />
  if (tool.value || several.value.length > 0) return <SeveralPane />
  if (sheet.value === 'picking' && !chosen.value) return <PickEntry />
  if (settingOut.value) return <SetOutForm now={settingOut.value} />
  if (cropOpen.value !== null && sheet.value === 'growing') return <CropForm key={cropOpen.value} id={cropOpen.value} />
  if (cardFault.value)
    return (
      <p class="fault" role="alert">
        {cardFault.value.detail}
      </p>
    )
  if (card.value) return <CardOf card={card.value} />
  if (chosen.value) return <p class="hint">Reading the card</p>
  return <p class="hint">Tap anything on the map, or a row of the table, to see its card.</p>
}

function CardOf({ card }: { readonly card: Card }) {
  return (
    <article class="card" aria-label={card.title}>
      <div class="card-head">
        <h2>{card.title}</h2>
        <button type="button" class="quiet" onClick={() => void choose(null)}>
          Close<span class="unseen"> the card of {card.title}</span>
        </button>
      </div>
      <p class="card-subtitle">{card.subtitle}</p>
      {sheet.value === 'yield' && yieldTapped.value && (
        <p>
          Where you tapped, in {yieldTapped.value.bed}: {yieldTapped.value.words.join(', ')}
        </p>
      )}
      <dl class="lines">
        {card.lines.map((line) => (
          <div key={line.label}>
            <dt>{line.label}</dt>
            <dd>
              {showLine(line, units.value)}
              {line.from && <From about={line.label}>{line.from}</From>}
            </dd>
          </div>
        ))}
      </dl>
      {(card.kind === 'plantings' || card.kind === 'beds') && <CardWarnings card={card} />}
      {card.kind === 'beds' && <BedStrip bed={card.id} />}
      {card.tables.map((table) => (
        <table key={table.title}>
          <caption>{table.title}</caption>
          <thead>
            <tr>
              {table.columns.map((column) => (
                <th key={column} scope="col">
                  {column}
                </th>
              ))}
            </tr>
          </thead>
          <tbody>
            {table.rows.map((row, i) => (
              <tr key={i}>
                {row.map((cell, j) => (
                  <td key={table.columns[j]} class={typeof cell === 'number' ? 'number' : ''}>
                    {typeof cell === 'number' ? cell.toLocaleString(undefined, { maximumFractionDigits: 2 }) : cell}
                  </td>
                ))}
              </tr>
            ))}
          </tbody>
        </table>
      ))}
      {sheet.value === 'supports' && card.kind === 'supports' && <RunOnCard key={card.id} />}
      {sheet.value === 'supports' && (card.kind === 'beds' || card.kind === 'rows') && (
        <SideRun key={card.id} card={card} />
      )}
      {card.kind === 'picks' ? (
        <PickDeeds id={card.id} title={card.title} />
      ) : (
        <CardDeeds card={card}>
          <GrowingDeeds card={card} />
        </CardDeeds>
      )}
    </article>
  )
}
