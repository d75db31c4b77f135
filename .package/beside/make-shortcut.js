// Writes stillfoot.lnk, which starts the game in this folder: on the desktop, or in a folder given.
var files = new ActiveXObject("Scripting.FileSystemObject");
var shell = new ActiveXObject("WScript.Shell");
var here = files.GetParentFolderName(WScript.ScriptFullName);
var into = WScript.Arguments.length ? WScript.Arguments(0) : shell.SpecialFolders("Desktop");
var path = files.BuildPath(into, "stillfoot.lnk");
var shortcut = shell.CreateShortcut(path);
shortcut.TargetPath = files.BuildPath(here, "stillfoot-game.exe");
shortcut.WorkingDirectory = here;
shortcut.Description = "Blip the throttle without disturbing the brake";
shortcut.Save();
WScript.Echo("The shortcut is there: " + path);
