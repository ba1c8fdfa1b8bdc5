/**
 * What scripts and tests may read of the page: `window.axlewalk.read()` gives the numbers behind what is shown,
 * in the units of the command line's JSON. It reads only; nothing can be done through it.
 */
import { poseReport } from '../../../geometry/cycle/poseReport.ts';
import type { Comparing } from '../compare/comparing.ts';
import { useShop } from './shop.ts';

export type Read = ReturnType<typeof read>;

function read() {
  const { document, opened, axleName, shown, results, look, play, rig, refused, comparing } =
    useShop.getState();
  const { left, right, steer } = shown.handle;
  return {
    file: document?.fileName ?? null,
    build: opened?.build.name ?? null,
    variant: opened?.build.variant ?? null,
    axle: axleName,
    refused: refused?.problems ?? null,
    pose: rig ? poseReport(rig, { left, right, steer }) : null,
    range: results.range,
    map: results.map && { isCoarse: results.map.isCoarse, least: least(results.map.share) },
    findings: results.findings,
    gaps: results.gaps,
    extremes: results.extremes,
    isFinal: results.isFinal,
    working: results.working,
    failed: results.failed,
    unit: look.unit,
    finding: look.finding,
    part: look.part,
    play,
    comparing: comparing && besideOf(comparing),
  };
}

/** The other axle, where it stands, and what is known of the two. */
function besideOf({ other, shown, isBeyond, compared, sheet }: Comparing) {
  const { left, right, steer } = shown.handle;
  return {
    name: other?.name ?? null,
    pose: other && shown.pose ? poseReport(other.rig, { left, right, steer }) : null,
    isBeyond,
    report: compared.report,
    stage: compared.stage,
    hasMaps: compared.maps !== null,
    working: compared.working,
    failed: compared.failed,
    sheet,
  };
}

/** The least share of the wanted gap that the map shows. */
const least = (shares: Float64Array): number =>
  shares.reduce((a, b) => (Number.isNaN(b) ? a : Math.min(a, b)), Number.POSITIVE_INFINITY);

declare global {
  interface Window {
    axlewalk?: { read(): Read };
  }
}

export function offerHook(): void {
  window.axlewalk = { read };
}
