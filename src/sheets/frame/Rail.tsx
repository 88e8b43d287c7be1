import { SHEET_TITLE, SHEETS, sheetNumber } from '../names.ts'
import { openFarm } from '../state/farm.ts'
import { goToSheet, sheet } from '../state/where.ts'
import { FarmMenu } from './FarmMenu.tsx'
import { InventedMark } from './InventedMark.tsx'
import { Kept } from './Kept.tsx'
import { LightSwitch } from './LightSwitch.tsx'
import { Steps } from './Steps.tsx'

/** The rail: the farm, the seven sheets, undo and redo, and how safely all is kept. */
export function Rail() {
  const { farm } = openFarm.value!
  return (
    <header class="rail">
      <div class="rail-name">
        <p class="rail-mark">Selion</p>
        <p class="rail-farm">{farm.name}</p>
        <InventedMark />
      </div>
      <nav aria-label="Sheets">
        <ol class="rail-sheets">
          {SHEETS.map((name) => (
            <li key={name}>
              <button
                type="button"
                {...(name === sheet.value && { 'aria-current': 'page' as const })}
                onClick={() => goToSheet(name)}
              >
                <span class="rail-number">{sheetNumber(name)}</span>
                {SHEET_TITLE[name]}
              </button>
            </li>
          ))}
        </ol>
      </nav>
      <Steps />
      <div class="rail-foot">
        <div class="rail-deeds">
          <FarmMenu />
          <LightSwitch />
        </div>
        <Kept />
      </div>
    </header>
  )
}
