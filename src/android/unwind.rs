//! What the standard library asks of an unwinder, where none can be linked.
//!
//! A fault ends the program at once (`panic = "abort"`), so that nothing is ever unwound: a trace of the
//! way there is empty, and whatever would go on from one is never reached. An NDK brings the real ones;
//! `android/build` sets `no_unwinder` where there is none.

use std::ffi::{c_int, c_void};

/// The end of the stack is reached: the fifth reason of the unwinding interface.
const END_OF_STACK: c_int = 5;

/// Calls nothing for no frame.
#[unsafe(no_mangle)]
extern "C" fn _Unwind_Backtrace(_trace: *const c_void, _given: *mut c_void) -> c_int {
    END_OF_STACK
}

/// Names that the library holds and never comes to.
macro_rules! never {
    ($($name:ident)*) => {
        $(
            #[unsafe(no_mangle)]
            extern "C" fn $name() -> ! {
                std::process::abort()
            }
        )*
    };
}

never! {
    _Unwind_DeleteException _Unwind_FindEnclosingFunction _Unwind_GetCFA _Unwind_GetDataRelBase
    _Unwind_GetIP _Unwind_GetIPInfo _Unwind_GetLanguageSpecificData _Unwind_GetRegionStart
    _Unwind_GetTextRelBase _Unwind_RaiseException _Unwind_Resume _Unwind_SetGR _Unwind_SetIP
}
