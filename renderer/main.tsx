import { StrictMode } from 'react';
import { I18nProvider } from 'react-aria-components/I18nProvider';
import { createRoot } from 'react-dom/client';
import './look/fonts.css';
import './look/tokens.css';
import './look/base.css';
import './kit/kit.css';
import './kit/slip.css';
import './frame/frame.css';
import { Frame } from './frame/Frame.tsx';
import { beginKeys } from './frame/keys.ts';
import { beginReading } from './frame/light.ts';
import { beginHearing } from './state/hearing.ts';
import { followAddress, takeUp } from './state/lot.ts';

beginReading();
beginKeys();
beginHearing();
followAddress();
void takeUp();

const root = document.getElementById('window');
if (root !== null) {
  createRoot(root).render(
    <StrictMode>
      <I18nProvider locale="en-US">
        <Frame />
      </I18nProvider>
    </StrictMode>,
  );
}
