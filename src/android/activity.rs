//! Calls of `android/java/app/tautmark/Main.java`, the window as Android has it.

use jni::errors::Result;
use jni::objects::{JByteArray, JObject, JObjectArray, JString, JValue};
use jni::refs::Global;
use jni::{Env, JavaVM, jni_sig, jni_str};
use slint::android::AndroidApp;

/// The window as Android has it.
pub(super) struct Activity {
    app: AndroidApp,
}

/// A file that came from outside: its name, and its bytes where they can be read.
pub(super) type Came = (String, Option<Vec<u8>>);

impl Activity {
    pub(super) fn of(app: &AndroidApp) -> Self {
        Self { app: app.clone() }
    }

    /// Lets the person pick a file.
    pub(super) fn pick(&self) -> Result<()> {
        self.with(|env, main| {
            env.call_method(main, jni_str!("pick"), jni_sig!(() -> void), &[])?;
            Ok(())
        })
    }

    /// Whether the person has come back from picking since this was last asked.
    pub(super) fn answered(&self) -> Result<bool> {
        self.with(|env, main| {
            let sig = jni_sig!(() -> jboolean);
            env.call_method(main, jni_str!("answered"), sig, &[])?.z()
        })
    }

    /// The file that came from outside since this was last asked.
    pub(super) fn take_brought(&self) -> Result<Option<Came>> {
        self.with(|env, main| {
            let sig = jni_sig!("()[Ljava/lang/Object;");
            let came = env.call_method(main, jni_str!("takeBrought"), sig, &[])?;
            let came = came.l()?;
            if came.is_null() {
                return Ok(None);
            }
            let came = env.cast_local::<JObjectArray>(came)?;
            let name = came.get_element(env, 0)?;
            let name = env.cast_local::<JString>(name)?.to_string();
            let bytes = came.get_element(env, 1)?;
            if bytes.is_null() {
                return Ok(Some((name, None)));
            }
            let bytes = env.cast_local::<JByteArray>(bytes)?;
            Ok(Some((name, Some(env.convert_byte_array(&bytes)?))))
        })
    }

    /// Keeps a file among the downloads and, to share, offers it to other programs; what is wrong
    /// in Android's words.
    pub(super) fn hand_over(
        &self,
        name: &str,
        media_type: &str,
        bytes: &[u8],
        share: bool,
    ) -> Result<Option<String>> {
        self.with(|env, main| {
            let sig = jni_sig!("(Ljava/lang/String;Ljava/lang/String;[BZ)Ljava/lang/String;");
            let name = JString::new(env, name)?;
            let media_type = JString::new(env, media_type)?;
            let bytes = env.byte_array_from_slice(bytes)?;
            let args = [
                JValue::Object(&name),
                JValue::Object(&media_type),
                JValue::Object(&bytes),
                JValue::Bool(share),
            ];
            let wrong = env
                .call_method(main, jni_str!("handOver"), sig, &args)?
                .l()?;
            if wrong.is_null() {
                return Ok(None);
            }
            Ok(Some(env.cast_local::<JString>(wrong)?.to_string()))
        })
    }

    fn with<T>(&self, what: impl FnOnce(&mut Env<'_>, &JObject<'_>) -> Result<T>) -> Result<T> {
        let vm = JavaVM::singleton().unwrap_or_else(|_| {
            // Safety: android-activity gives the process's one Java machine, which outlives it.
            unsafe { JavaVM::from_raw(self.app.vm_as_ptr().cast()) }
        });
        vm.attach_current_thread(|env| {
            let main = self.app.activity_as_ptr().cast();
            // Safety: android-activity holds a global reference to the activity as long as the app.
            let main = unsafe { env.as_cast_raw::<Global<JObject<'static>>>(&main)? };
            let object: &JObject<'_> = main.as_ref();
            what(env, object)
        })
    }
}
