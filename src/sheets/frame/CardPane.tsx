import type { Card } from '../../desk/door.ts'
import { From } from '../../ui/From.tsx'
import { later } from '../../ui/later.tsx'
import { CardDeeds } from '../ground/CardDeeds.tsx'
import { Pen } from '../ground/Pen.tsx'
import { RecordForm } from '../ground/RecordForm.tsx'
import { SeveralPane } from '../ground/SeveralPane.tsx'
import { GrowingDeeds } from '../growing/GrowingDeeds.tsx'
import { NoteDeeds } from '../noting/NoteDeeds.tsx'
import { NotedDeeds } from '../noting/NotedDeeds.tsx'
import { Picture } from '../noting/Picture.tsx'
import { PickDeeds } from '../picking/PickDeeds.tsx'
import { showLine } from '../show/cardLine.ts'
import { act } from '../state/act.ts'
import { card, cardFault, choose, chosen } from '../state/chosen.ts'
import { cropOpen } from '../state/crops.ts'
import { pending, tool } from '../state/drawing.ts'
import { units } from '../state/farm.ts'
import { laying } from '../state/laying.ts'
import { noting } from '../state/noting.ts'
import { placer } from '../state/placing.ts'
import { settingOut } from '../state/settingOut.ts'
import { several } from '../state/several.ts'
import { walking } from '../state/walking.ts'
import { sheet } from '../state/where.ts'
import { stockForm } from '../stock/stockEntry.ts'
import { yieldTapped } from '../yield/yieldHere.ts'

const ActPane = later(async () => (await import('../ground/acts/ActPane.tsx')).ActPane)
const PickEntry = later(async () => (await import('../picking/PickEntry.tsx')).PickEntry)
const NoteEntry = later(async () => (await import('../noting/NoteEntry.tsx')).NoteEntry)
const StockForms = later(async () => (await import('../stock/StockForms.tsx')).StockForms)
const LotMoves = later(async () => (await import('../stock/LotDeeds.tsx')).LotMoves)
const LotDeeds = later(async () => (await import('../stock/LotDeeds.tsx')).LotDeeds)
const Layout = later(async () => (await import('../ground/laying/Layout.tsx')).Layout)
const SideRun = later(async () => (await import('../supports/SideRun.tsx')).SideRun)
const RunOnCard = later(async () => (await import('../supports/RunOnCard.tsx')).RunOnCard)
const TimedOnCard = later(async () => (await import('../supports/TimedOnCard.tsx')).TimedOnCard)
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
  if (noting.value) return <NoteEntry key={noting.value.key} note={noting.value} />
  if (stockForm.value && sheet.value === 'stock') return <StockForms form={stockForm.value} />
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
  return (
    <>
      <p class="hint">Tap anything on the map, or a row of the table, to see its card.</p>
      <NoteDeeds bed={null} />
    </>
  )
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
      {card.kind === 'beds' && <NoteDeeds bed={card.id} />}
      {card.kind === 'stock_lots' && <LotMoves id={card.id} />}
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
                    {j === 0 && table.opens ? (
                      <button
                        type="button"
                        class="in-row"
                        onClick={() => void choose({ kind: table.opens!.kind, id: table.opens!.ids[i]! })}
                      >
                        {showCell(cell)}
                      </button>
                    ) : (
                      showCell(cell)
                    )}
                  </td>
                ))}
              </tr>
            ))}
          </tbody>
        </table>
      ))}
      {sheet.value === 'supports' && card.kind === 'supports' && (
        <>
          <RunOnCard key={card.id} />
          <TimedOnCard key={`${card.id} time`} id={card.id} standing={card.record.taken_down === null} />
        </>
      )}
      {sheet.value === 'supports' && (card.kind === 'beds' || card.kind === 'rows') && (
        <SideRun key={card.id} card={card} />
      )}
      {typeof card.record.photo === 'string' && <Picture file={card.record.photo} of={card.title} />}
      {deedsOf(card)}
    </article>
  )
}

function deedsOf(card: Card) {
  if (card.kind === 'picks') return <PickDeeds id={card.id} title={card.title} />
  if (card.kind === 'stock_lots') return <LotDeeds id={card.id} />
  if (card.kind === 'observations' || card.kind === 'dressings') return <NotedDeeds card={card} />
  return (
    <CardDeeds card={card}>
      <GrowingDeeds card={card} />
    </CardDeeds>
  )
}

const showCell = (cell: string | number | null) =>
  typeof cell === 'number' ? cell.toLocaleString(undefined, { maximumFractionDigits: 2 }) : cell
