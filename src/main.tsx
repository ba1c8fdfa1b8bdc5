/** Starts the page. */
import { StrictMode } from 'react';
import { createRoot } from 'react-dom/client';
import { App } from './app/App.tsx';
import { startPage } from './app/start.ts';
import './app/theme.css';

const page = document.getElementById('page');
if (!page) throw new Error('index.html has no element of id page');
startPage();
createRoot(page).render(
  <StrictMode>
    <App />
  </StrictMode>,
);
