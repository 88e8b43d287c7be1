import { useSignalEffect } from '@preact/signals'
import type { RefObject } from 'preact'
import { useEffect, useRef } from 'preact/hooks'
import { Bringing } from '../exchange/lazily.tsx'
import { SHEET_TITLE } from '../names.ts'
import { isBringing } from '../state/bringing.ts'
import { askCard } from '../state/chosen.ts'
import { phase } from '../state/farm.ts'
import { pane, showPane } from '../state/pane.ts'
import { askPhotos } from '../state/photos.ts'
import { placer } from '../state/placing.ts'
import { showDayOfFarm, showingFault, shownOn } from '../state/shown.ts'
import { said } from '../state/steps.ts'
import { askStock } from '../state/stock.ts'
import { askSystems } from '../state/systems.ts'
import { on, sheet } from '../state/where.ts'
import { CardPane } from './CardPane.tsx'
import { LongStep } from './LongStep.tsx'
import { Lost } from './Lost.tsx'
import { MapPane } from './MapPane.tsx'
import { Newer } from './Newer.tsx'
import { Notices } from './Notices.tsx'
import { narrow } from './narrow.ts'
import { PhoneBar } from './PhoneBar.tsx'
import { PhoneCautions } from './PhoneCautions.tsx'
import { PhoneHead } from './PhoneHead.tsx'
import { PrintHost } from './PrintHost.tsx'
import { Rail } from './Rail.tsx'
import { SeasonStrip } from './SeasonStrip.tsx'
import { PANELS } from './sheetParts.ts'
import { wholeOnPaper } from './wholeOnPaper.ts'

/** The plan set: rail, map, the sheet's table and card, and the season under all of it. */
export function Plan() {
  useSignalEffect(() => {
    if (phase.value === 'open') void showDayOfFarm(on.value).then(askCard)
  })
  useEffect(() => {
    void askPhotos()
    void askSystems()
    void askStock()
  }, [])
  useSignalEffect(() => {
    if (narrow.value && sheet.value === 'picking') showPane('card')
  })
  useEffect(() => wholeOnPaper(), [])
  const tablePane = useRef<HTMLElement>(null)
  useFromTop(tablePane)
  const Panel = PANELS[sheet.value]
  const placing = sheet.value === 'ground' ? placer.value : null
  return (
    <div class="plan" data-pane={pane.value} data-sheet={sheet.value} {...(placing && { 'data-placing': '' })}>
      {narrow.value ? <PhoneHead /> : <Rail />}
      <main class="sheet">
        <Newer />
        <LongStep />
        {placing && <placing.Picture />}
        <MapPane />
        <div class="beside">
          <section ref={tablePane} class="table-pane" aria-busy={shownOn.value !== on.value}>
            {!narrow.value && <h1>{SHEET_TITLE[sheet.value]}</h1>}
            <Notices />
            {showingFault.value && (
              <p class="fault" role="alert">
                {showingFault.value.detail}
              </p>
            )}
            {isBringing() ? <Bringing /> : <Panel />}
            {narrow.value && <PhoneCautions />}
          </section>
          <section class="card-pane" aria-label="Card">
            <CardPane />
          </section>
        </div>
        <SeasonStrip />
      </main>
      {narrow.value && <PhoneBar />}
      <p class="unseen" role="status">
        {said.value}
      </p>
      <PrintHost />
      <Lost />
    </div>
  )
}

/** Has each sheet seen from its top, however far the one before was scrolled; one changed while hidden, once it shows. */
function useFromTop(table: RefObject<HTMLElement | null>): void {
  const topOf = useRef<string | null>(null)
  useEffect(() => {
    if (topOf.current === sheet.value || !table.current?.checkVisibility()) return
    topOf.current = sheet.value
    table.current.scrollTo(0, 0)
  }, [sheet.value, pane.value])
}
