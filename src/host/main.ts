import '../look/tokens.css';
import './host.css';
import './elements/app.ts';
