import type { Database } from '../store/database.ts'
import { wireByName } from './load/wireGauge.ts'
import { type PartKind, partKindOf } from './partKind.ts'
import { readPartRule } from './partRule.ts'
import type { Recipe, RecipePart } from './recipe.ts'
import { workPhaseOf } from './workPhase.ts'

/** Every system's recipe, in the order they were made. */
export async function readRecipes(db: Database): Promise<Recipe[]> {
  const systems = await db.rows<Pick<Recipe, 'id' | 'name' | 'heightM' | 'lines' | 'tensionN'>>(
    'select id, name, height_m as "heightM", lines, tension_n as "tensionN" from systems order by ord',
  )
  const parts = await db.rows<PartRow>(
    `select system, part, kind, rule, unit_cost as "unitCost", lasts_seasons as "lastsSeasons", roll_m as "rollM",
      diameter_mm as "diameterMm", strength_mpa as "strengthMPa", modulus_gpa as "modulusGPa"
     from system_parts order by ord`,
  )
  const work = await db.rows<{ system: string; work: string; minutesPerM: number | null; when: string | null }>(
    'select system, work, minutes_per_m as "minutesPerM", "when" from system_work order by ord',
  )
  return systems.map((system) => {
    const own = parts.filter((part) => part.system === system.id).map(partOf)
    return {
      ...system,
      lines: system.lines ?? linesOf(own),
      parts: own,
      work: work
        .filter((one) => one.system === system.id)
        .map((one) => ({ work: one.work, minutesPerM: one.minutesPerM, phase: workPhaseOf(one.when) })),
    }
  })
}

type PartRow = Omit<RecipePart, 'kind' | 'rule' | 'ruleText' | 'strengthByName'> & {
  readonly system: string
  readonly kind: PartKind | null
  readonly rule: string
}

function partOf({ system: _, kind: told, rule, ...part }: PartRow): RecipePart {
  const kind = partKindOf(part.part, told)
  const wire = kind === 'wire' ? wireByName(part.part) : null
  return {
    ...part,
    kind,
    rule: readPartRule(rule),
    ruleText: rule,
    diameterMm: part.diameterMm ?? wire?.diameterMm ?? null,
    strengthMPa: part.strengthMPa ?? wire?.strengthMPa ?? null,
    strengthByName: wire !== null && part.strengthMPa === null,
  }
}

/** `3.15 m per m` of wire is three lines with something to tie off. */
function linesOf(parts: readonly RecipePart[]): number | null {
  const rule = parts.find(({ kind, rule }) => kind === 'wire' && rule?.unit === 'm' && rule.per === 'm')?.rule
  return rule ? Math.max(1, Math.floor(rule.amount)) : null
}
