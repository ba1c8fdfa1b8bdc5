/** Candidates for one part, opened here and walked by the worker one after another. */
import { proxy } from 'comlink';
import { useCallback, useEffect, useState } from 'react';
import type { BuildFile } from '../../../geometry/build/schema/file.ts';
import {
  type Candidate,
  candidatesOf,
  withCandidate,
} from '../../../geometry/compare/candidates.ts';
import type { OpenedBuild } from '../../../geometry/cycle/open.ts';
import { axleOf } from '../../../geometry/cycle/openAxle.ts';
import type { CandidateRequest, CandidateTold, SideRequest } from '../../worker/compareProtocol.ts';
import { type Reader, theReader } from '../files/reader.ts';
import { readyFor } from '../state/meshes.ts';
import { type Document, useShop } from '../state/shop.ts';
import { sideRequest, theDesk } from './followComparison.ts';

export interface Candidates {
  alternative: string;
  /** In their order, those that can't be built with why. */
  list: { candidate: Candidate; refused: string | null }[];
  /** As they become known; the build as it stands first. */
  rows: CandidateTold[];
  isDone: boolean;
}

let generation = 0;

/** The candidates that were asked for last, and what asks for those of an alternative. */
export function useCandidates(): [Candidates | null, (alternative: string) => void] {
  const document = useShop(shop => shop.document);
  const [found, setFound] = useState<Candidates | null>(null);
  // of another build, or after a change, they are asked for anew
  // biome-ignore lint/correctness/useExhaustiveDependencies: the text is what they are of
  useEffect(() => setFound(null), [document?.text]);
  const ask = useCallback((alternative: string): void => {
    const now = useShop.getState();
    if (!now.document) return;
    const mine = ++generation;
    const change = (to: (before: Candidates) => Candidates): void => {
      if (mine === generation) setFound(before => before && to(before));
    };
    setFound({ alternative, list: [], rows: [], isDone: false });
    void walkAll(now.document, alternative, mine, change).then(() =>
      change(before => ({ ...before, isDone: true })),
    );
  }, []);
  return [found, ask];
}

async function walkAll(
  document: Document,
  alternative: string,
  mine: number,
  change: (to: (before: Candidates) => Candidates) => void,
): Promise<void> {
  const reader = await theReader();
  const file = reader.baseOf(document.text);
  const base = reader.read(document.text);
  const all = candidatesOf(file, alternative);
  const asBuilt = base.ok ? await requestOf(base, document) : null;
  if (!asBuilt) return;
  const list: Candidates['list'] = [];
  const options: CandidateRequest['options'] = [];
  for (const candidate of all) {
    const { side, refused } = await opened(reader, file, candidate, document);
    list.push({ candidate, refused });
    if (side) options.push({ candidate, side });
  }
  change(before => ({ ...before, list }));
  const request = { generation: mine, base: asBuilt, part: all[0]?.part ?? '', options };
  await (await theDesk()).candidates(
    request,
    proxy((row: CandidateTold) => change(before => ({ ...before, rows: [...before.rows, row] }))),
  );
}

async function opened(
  { read }: Reader,
  file: BuildFile,
  candidate: Candidate,
  document: Document,
): Promise<{ side: SideRequest | null; refused: string | null }> {
  const made = withCandidate(file, candidate);
  const found = read(JSON.stringify(made.file), made.variant);
  if (found.ok) return { side: await requestOf(found, document), refused: null };
  const [first] = found.problems;
  return { side: null, refused: first ? `${first.path}: ${first.message}` : 'it is refused' };
}

/** Sentences come in the unit of the page. */
async function requestOf(build: OpenedBuild, document: Document): Promise<SideRequest | null> {
  const { axleName, look } = useShop.getState();
  const axle = axleOf(build, axleName);
  if (!axle) return null;
  await readyFor(build.build, document.meshes);
  const request = sideRequest(axle, build.file, document.meshes);
  return request && { ...request, build: { ...request.build, unit: look.unit } };
}
