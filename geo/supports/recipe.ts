import type { Database } from '../store/database.ts'
import { wireByName } from './load/wireGauge.ts'
import { type PartKind, partKindOf } from './partKind.ts'
import { type PartRule, readPartRule } from './partRule.ts'
import { type WorkPhase, workPhaseOf } from './workPhase.ts'

/** One part of a recipe, its rule read. */
export interface RecipePart {
  readonly part: string
  readonly kind: PartKind
  /** Null where the rule is written in no form that can be counted. */
  readonly rule: PartRule | null
  readonly ruleText: string
  readonly unitCost: number | null
  readonly lastsSeasons: number | null
  /** Length that it is sold in, for what is cut from rolls. */
  readonly rollM: number | null
  /** Thickness of a wire, or of a post across the row. */
  readonly diameterMm: number | null
  /** Breaking stress of a wire in tension, of a post in bending. */
  readonly strengthMPa: number | null
  readonly modulusGPa: number | null
  /** A wire's strength is that of the grade that its name tells, since nobody gave another. */
  readonly strengthByName: boolean
}

export interface RecipeWork {
  readonly work: string
  readonly minutesPerM: number | null
  readonly phase: WorkPhase
}

/** A support system with its parts and work. */
export interface Recipe {
  readonly id: string
  readonly name: string
  readonly heightM: number | null
  /** Wires or strings one above another; where it is not told, as many as its wire rule has metres for each metre. */
  readonly lines: number | null
  /** Initial tension of each wire. */
  readonly tensionN: number | null
  readonly parts: readonly RecipePart[]
  readonly work: readonly RecipeWork[]
}

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
