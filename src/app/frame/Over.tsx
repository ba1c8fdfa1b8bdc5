/** A page of explanation over the page, put away by its button, Escape or a touch beside it. */
import { Dialog, DialogDismiss, DialogHeading } from '@ariakit/react';
import type { ReactNode } from 'react';
import { act } from '../state/action.ts';
import { showDialog } from '../state/look.ts';
import './Over.css';

export interface OverProps {
  title: string;
  /** As wide as pictures or long texts want it. */
  isWide?: boolean;
  children: ReactNode;
}

export function Over({ title, isWide = false, children }: OverProps) {
  return (
    <Dialog
      open
      onClose={() => act(showDialog, null)}
      className={isWide ? 'over wide' : 'over'}
      backdrop={<div className="over-backdrop" />}
    >
      <div className="over-head">
        <DialogHeading>{title}</DialogHeading>
        <DialogDismiss className="button">Close</DialogDismiss>
      </div>
      <div className="over-body">{children}</div>
    </Dialog>
  );
}
