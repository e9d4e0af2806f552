import '../look/tokens.css';
import './host.css';
import './dialogs.css';
import './elements/app.ts';
