import { STANDARD_SCALES } from '../../print/frame.ts'
import { PAPERS, type PaperName } from '../../print/paper.ts'
import { Choice } from '../../ui/Choice.tsx'
import { Entry } from '../../ui/Entry.tsx'
import { SHEET_TITLE, SHEETS, sheetNumber } from '../names.ts'
import { isCalendarDay } from '../show/days.ts'
import { units } from '../state/farm.ts'
import { photos } from '../state/photos.ts'
import { layers } from '../state/shown.ts'
import { on, sheet } from '../state/where.ts'
import { scaleWords } from './askSheet.ts'
import { type Choices, choices, choosePrint, type Extent } from './choices.ts'
import { ScaleChoice } from './ScaleChoice.tsx'

const DOTS = [100, 150, 200, 300] as const
const PAPER_NAMES = Object.keys(PAPERS) as PaperName[]

/** What a person chooses of a print: sheet and day, paper, extent and scale, and what goes with it. A list has paper and ink only. */
export function PrintChoices({ ofSheet, fits }: { readonly ofSheet: boolean; readonly fits: number | null }) {
  const now = choices.value
  return (
    <div class="print-choices">
      {ofSheet && <SheetAndDay />}
      <Entry label="Paper">
        {(names) => (
          <select
            {...names}
            value={now.paper}
            onChange={({ currentTarget }) =>
              choosePrint({ paper: PAPER_NAMES.find((name) => name === currentTarget.value) ?? now.paper })
            }
          >
            {PAPER_NAMES.map((name) => (
              <option key={name} value={name}>
                {name}
              </option>
            ))}
          </select>
        )}
      </Entry>
      <Choice
        label="How the paper lies"
        value={now.lie}
        onChange={(lie) => choosePrint({ lie })}
        options={[
          { value: 'landscape', words: 'Landscape' },
          { value: 'portrait', words: 'Portrait' },
        ]}
      />
      {ofSheet && now.withMap && (
        <>
          <ExtentChoice />
          <ScaleChoice
            scales={STANDARD_SCALES[units.value]}
            scale={now.scale}
            fits={fits}
            wordsOf={(scale) => scaleWords(scale, units.value)}
            onChange={(scale) => choosePrint({ scale })}
          />
          <Tick of="turned">Turn the map where it then fits larger</Tick>
        </>
      )}
      <fieldset class="print-ticks">
        <legend>On paper</legend>
        {ofSheet && (
          <>
            <Tick of="withMap">Map</Tick>
            {now.withMap && <Tick of="withLegend">Legend</Tick>}
            {now.withMap && photos.value.length > 0 && <Tick of="withPhotos">Photos that are shown</Tick>}
            <Tick of="withTable">Table</Tick>
          </>
        )}
        <Tick of="black">Black only, for a printer without colours</Tick>
      </fieldset>
      <Entry label="Sharpness of a PNG">
        {(names) => (
          <select
            {...names}
            value={now.dpi}
            onChange={({ currentTarget }) => choosePrint({ dpi: Number(currentTarget.value) })}
          >
            {DOTS.map((dpi) => (
              <option key={dpi} value={dpi}>
                {dpi} dots per inch
              </option>
            ))}
          </select>
        )}
      </Entry>
      {ofSheet && <p class="hint">Title block and cautions are always printed with the map.</p>}
    </div>
  )
}

type TickOf = { [K in keyof Choices]: Choices[K] extends boolean ? K : never }[keyof Choices]

function Tick({ of, children }: { readonly of: TickOf; readonly children: string }) {
  return (
    <label class="tick">
      <input
        type="checkbox"
        checked={choices.value[of]}
        onChange={({ currentTarget }) => choosePrint({ [of]: currentTarget.checked })}
      />
      {children}
    </label>
  )
}

function SheetAndDay() {
  return (
    <>
      <Entry label="Sheet to print">
        {(names) => (
          <select
            {...names}
            value={sheet.value}
            onChange={({ currentTarget }) => {
              const name = SHEETS.find((one) => one === currentTarget.value)
              if (name) sheet.value = name
            }}
          >
            {SHEETS.map((name) => (
              <option key={name} value={name}>
                {sheetNumber(name)} {SHEET_TITLE[name]}
              </option>
            ))}
          </select>
        )}
      </Entry>
      <Entry label="As on">
        {(names) => (
          <input
            {...names}
            type="date"
            value={on.value}
            onChange={({ currentTarget }) => {
              if (isCalendarDay(currentTarget.value)) on.value = currentTarget.value
            }}
          />
        )}
      </Entry>
    </>
  )
}

const FIELD = 'field '

function ExtentChoice() {
  const { extent } = choices.value
  const told = typeof extent === 'string' ? extent : FIELD + extent.field
  const read = (value: string): Extent =>
    value.startsWith(FIELD) ? { field: value.slice(FIELD.length) } : value === 'view' ? 'view' : 'farm'
  return (
    <Entry label="What is on the map">
      {(names) => (
        <select
          {...names}
          value={told}
          onChange={({ currentTarget }) => choosePrint({ extent: read(currentTarget.value) })}
        >
          <option value="farm">All of the farm</option>
          <option value="view">What the screen shows</option>
          {layers.value?.fields.features.map(({ properties }) => (
            <option key={properties.id} value={FIELD + properties.id}>
              {properties.name}
            </option>
          ))}
        </select>
      )}
    </Entry>
  )
}
