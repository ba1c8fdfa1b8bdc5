/**
 * Findings: what there is to know about a build that was walked, worst first. One trouble is one finding, told
 * at its worst pose.
 */
import type { AxleName, Build, Side } from '../build/build.ts';
import { type AxleWalk, type Cycled, nameOf, type PoseName } from '../cycle/walkReport.ts';
import type { AxleGaps } from '../gap/gapReport.ts';
import type { EndId } from '../limit/limit.ts';
import { SHOWN } from '../measure/measure.ts';
import type { Pose } from '../pose/pose.ts';
import type { Extent } from './extent.ts';
import { type FieldsOf, fieldsOf } from './fields.ts';
import { gapDrafts, gapKinds } from './gapFindings.ts';
import { rules } from './list.ts';
import { atAssumedTravel, lockAt } from './place.ts';
import { poseWords } from './words.ts';

/** Must be fixed; to be watched; to be known. In this order. */
export const SEVERITIES = ['mustFix', 'watch', 'note'] as const;
export type Severity = (typeof SEVERITIES)[number];

export interface Amount {
  value: number;
  /** As the measure or limit is shown: `in`, `deg`, `%`, `lbf`, `1`. */
  unit: string;
}

export interface Finding {
  /** Camel-case word, fixed: scripts read it. */
  kind: string;
  severity: Severity;
  axle: AxleName;
  /** Names of parts, or of ends of parts as `part.end`. */
  parts: string[];
  /** Where it is worst; ride height where it is everywhere alike. */
  pose: PoseName;
  /** The pose in words. */
  where: string;
  amount: Amount;
  /** One or two plain sentences. */
  text: string;
  /** Paths of the fields of the build file that it hangs on. */
  hangsOn: string[];
  /** True where one of them is assumed, or where the pose is at an assumed end of travel. */
  assumed: boolean;
  /** Of a limit: which. */
  limit?: EndId;
  /** Of a measure of one wheel: whose. */
  side?: Side;
  /** How far it reaches. */
  extent?: Extent;
  /** Amounts beside the main one, by name. */
  others?: Record<string, Amount>;
}

/** A finding as a rule makes it. */
export interface Draft extends Pick<Finding, 'kind' | 'severity' | 'parts' | 'amount'> {
  pose: Pose;
  /** @param where the pose in words */
  text(where: string): string;
  fields: FieldsOf[];
  /** Fields by their own path. */
  paths?: string[];
  /** True where it hangs on an assumption that no field holds. */
  assumed?: boolean;
  /** Rolls of links about their own lines at that pose, rad, where they are not as drawn. */
  linkRoll?: Record<string, number>;
  limit?: EndId;
  side?: Side | null;
  extent?: Extent | null;
  others?: Record<string, Amount>;
}

/** A kind or family of findings: one small file each, one line in `list.ts`. */
export interface Rule {
  /** Its kinds, as they are told after each other among findings of one severity. */
  kinds: readonly string[];
  find(walk: AxleWalk): Draft[];
}

/**
 * Everything to know about a build, from its walked axles and from their gaps: worst severity first, then by
 * kind in the list's order, what touches before all else, then by amount.
 */
export function findFindings(
  build: Build,
  walks: readonly AxleWalk[],
  gaps: readonly AxleGaps[] = [],
): Finding[] {
  const order: readonly string[] = [...gapKinds, ...rules.flatMap(rule => rule.kinds)];
  const rank = ({ severity, kind }: Finding): number =>
    SEVERITIES.indexOf(severity) * order.length + order.indexOf(kind);
  const ofWalks = walks.flatMap(walk =>
    rules.flatMap(rule => rule.find(walk)).map(draft => finish(build, walk, draft)),
  );
  const ofGaps = gaps.flatMap(each =>
    gapDrafts(each).map(draft => finish(build, each.walk, draft)),
  );
  return [...ofGaps, ...ofWalks].sort(
    (a, b) => rank(a) - rank(b) || Math.abs(b.amount.value) - Math.abs(a.amount.value),
  );
}

function finish(build: Build, walk: Cycled, draft: Draft): Finding {
  const { kind, severity, parts, amount, pose, fields, paths = [] } = draft;
  const { assumed = false, limit, side, extent, others, linkRoll } = draft;
  const axle = walk.axle.name;
  const atEnd = atAssumedTravel(walk, pose);
  const entries = fieldsOf(build, axle, fields, atEnd ? [...paths, 'wanted.assumedTravel'] : paths);
  const where = poseWords(build, nameOf(pose), lockAt(walk, pose));
  return {
    kind,
    severity,
    axle,
    parts,
    pose: {
      ...nameOf(pose),
      linkRoll_deg: linkRoll && Object.keys(linkRoll).length > 0 ? inDegrees(linkRoll) : null,
    },
    where,
    amount,
    text: draft.text(where),
    hangsOn: entries.map(entry => entry.path),
    assumed: assumed || atEnd || entries.some(entry => entry.from === 'assumed'),
    ...(limit ? { limit } : {}),
    ...(side ? { side } : {}),
    ...(extent ? { extent } : {}),
    ...(others ? { others } : {}),
  };
}

const inDegrees = (angles: Record<string, number>): Record<string, number> =>
  Object.fromEntries(Object.entries(angles).map(([name, angle]) => [name, angle * SHOWN.deg]));
