@rem Puts a shortcut to the game on the desktop. Run it again after moving the folder.
@cscript //nologo //e:jscript "%~dp0make-shortcut.js" %1
